mod candidates;
mod costs;
mod figure_words;
mod lattice;
mod phrases;
mod place;
mod state;

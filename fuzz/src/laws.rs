//! The laws, each a function from a text to a sentence about how it is broken.

mod figures;
mod mends;
mod sheet;
mod tidy;
mod whole;

/// A law that holds for any text.
#[derive(Clone, Copy)]
pub struct Law {
    /// Its name on the command line.
    pub name: &'static str,
    /// What it says.
    pub says: &'static str,
    /// Whether it begins with sheets or with the steps of figures.
    pub of_figures: bool,
    /// Tries it.
    pub holds: fn(&str) -> Result<(), String>,
}

impl core::fmt::Debug for Law {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name)
    }
}

/// Every law.
pub const LAWS: &[Law] = &[
    Law {
        name: "sheet",
        says: "a parsed sheet speaks of places in the text only, in order, and the work of reading is bounded",
        of_figures: false,
        holds: sheet::holds,
    },
    Law {
        name: "whole",
        says: "from text to drawing every number is finite, every share of weight whole, every markup sound",
        of_figures: false,
        holds: whole::holds,
    },
    Law {
        name: "figures",
        says: "steps that the lexicon takes are the same on the other foot, and on a sheet",
        of_figures: true,
        holds: figures::holds,
    },
    Law {
        name: "tidy",
        says: "a tidy sheet reads as the same dance, and tidying twice is tidying once",
        of_figures: false,
        holds: tidy::holds,
    },
    Law {
        name: "mends",
        says: "a mend removes its finding and adds none",
        of_figures: false,
        holds: mends::holds,
    },
];

/// The law of a name.
#[must_use]
pub fn law(name: &str) -> Option<&'static Law> {
    LAWS.iter().find(|law| law.name == name)
}

/// A sentence unless something is so.
fn must(so: bool, what: impl FnOnce() -> String) -> Result<(), String> {
    if so { Ok(()) } else { Err(what()) }
}

fn report(text: &str) -> Result<halfcount::Report, String> {
    halfcount::report(text, &halfcount::Options::default()).map_err(|error| error.to_string())
}

/// What must not change when a sheet is written otherwise: everything in the trace that does not speak of the
/// text itself, by headings.
fn told(report: &halfcount::Report) -> [(&'static str, String); 4] {
    let t = halfcount::trace::trace(report, "", "");
    let sections: Vec<String> = t
        .sections
        .iter()
        .map(|s| format!("{} {} {} {}", s.counts, s.trace, s.facing_end, s.weight_end))
        .collect();
    let head = format!("{} {} {} {:?} {}", t.counts, t.walls, t.level, t.start_foot, t.beats_per_bar);
    let extras: Vec<String> = t.tags.iter().map(|x| format!("{x:?}")).collect();
    let restarts: Vec<String> = t.restarts.iter().map(|x| format!("{x:?}")).collect();
    [
        ("sections", sections.join("\n")),
        ("head", format!("{}\n{head}", t.title)),
        ("tags", extras.join("\n")),
        ("restarts", restarts.join("\n")),
    ]
}

/// Whether two traces tell the same.
fn same(what: &str, before: &halfcount::Report, after: &halfcount::Report) -> Result<(), String> {
    let pairs = told(before).into_iter().zip(told(after));
    pairs
        .into_iter()
        .try_for_each(|((name, a), (_, b))| must(a == b, || format!("{what}, {name}: {}", differ(&a, &b))))
}

/// The first line that differs.
fn differ(before: &str, after: &str) -> String {
    let (mut a, mut b) = (before.lines(), after.lines());
    loop {
        match (a.next(), b.next()) {
            (None, None) => return "nothing".to_owned(),
            (x, y) if x != y => return format!("`{}` became `{}`", x.unwrap_or(""), y.unwrap_or("")),
            _ => {}
        }
    }
}

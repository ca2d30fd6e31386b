//! Sections whose lines are like headings: "R SIDE - TOGETHER - R FWD - HOLD" under "SECTION 2", where nothing else
//! is danced.

use super::{Reading, Role};
use crate::sheet::lines::Line;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, acts};

impl Reading<'_> {
    /// Takes the words under the heading of a section for its steps, where it has no others.
    pub(super) fn unmarked(&self, roles: &mut [Role]) {
        let labelled = |r: &Role| matches!(r, Role::Heading(Some(l)) if l.certain);
        let ends = |r: &Role| labelled(r) || matches!(r, Role::Extra(_) | Role::Sequence | Role::Own);
        // One such section among others that are told in lines of steps.
        if !roles.iter().any(|r| matches!(r, Role::Steps(..))) {
            return;
        }
        let mut h = 0;
        while let Some(heading) = (h..roles.len()).find(|i| labelled(&roles[*i])) {
            let end = (heading + 1..roles.len()).find(|i| ends(&roles[*i])).unwrap_or(roles.len());
            h = end.max(heading + 1);
            let own = &self.lines[heading];
            let titled = own.verbs >= 1;
            // Below the last section stands what is no section's.
            let blank = |i: &usize| self.lines[*i].empty() || self.lines[*i].after_gap && *i > heading + 1;
            let end = if end == roles.len() { (heading + 1..end).find(blank).unwrap_or(end) } else { end };
            let under = heading + 1..end;
            self.untitled(&mut roles[under.clone()], under.start);
            if titled || roles[under.clone()].iter().any(|r| matches!(r, Role::Steps(..))) {
                continue;
            }
            let mut danced: Vec<usize> = under.filter(|i| dances(&self.lines[*i])).collect();
            // "RUMBA BOX, STARTING RIGHT" above the lines that tell it is its title.
            if let [first, second, ..] = danced[..]
                && feet(&self.lines[first]) < feet(&self.lines[second])
                && self.lines[first].tokens.iter().any(|t| matches!(t.kind, Kind::Name(_)))
            {
                danced.remove(0);
            }
            for i in danced {
                roles[i] = Role::Steps(self.lines[i].first, false);
            }
        }
    }
}

impl Reading<'_> {
    /// Takes the title in capitals above lines of steps without counts from the steps; `roles` are those from line
    /// `from` on.
    fn untitled(&self, roles: &mut [Role], from: usize) {
        let mut steps = (0..roles.len()).filter(|k| matches!(roles[*k], Role::Steps(..)));
        let (Some(first), Some(second)) = (steps.next(), steps.next()) else { return };
        let (title, below) = (&self.lines[from + first], &self.lines[from + second]);
        let named = title.tokens.iter().any(|t| matches!(t.kind, Kind::Name(_)));
        let counted = |l: &Line| l.tokens.iter().any(|t| matches!(t.kind, Kind::Number(_)));
        if title.capitals && named && feet(title) < feet(below) && !counted(title) && !counted(below) {
            roles[first] = Role::Note;
        }
    }
}

/// Whether a line tells something to do and hardly anything else, and points at no other section.
pub(super) fn dances(line: &Line) -> bool {
    let points = |k: Kind| {
        matches!(
            k,
            Kind::W(W::Repeat | W::Same | W::Again | W::Section | W::Wall | W::Tag | W::Restart | W::Option)
        )
    };
    let does = |k: Kind| matches!(k, Kind::Name(_)) || matches!(k, Kind::W(w) if acts(w));
    let any = line.tokens.iter().any(|t| does(t.kind)) || line.bare_steps >= 2;
    line.told.is_none()
        && any
        && line.step_words * 2 >= line.words
        && !line.tokens.iter().any(|t| points(t.kind))
}

fn feet(line: &Line) -> usize {
    line.tokens.iter().filter(|t| matches!(t.kind, Kind::W(W::R | W::L | W::RF | W::LF))).count()
}

//! The record of a calibration: weights as data, and the errors in words.

use std::fmt::Write as _;

use halfcount::difficulty::LEVELS;
use halfcount::difficulty::number::{decimal, exp, ln, logistic};

use super::fit::{self, Case};
use super::labels::{Labelled, scored};
use super::stats::{drawn_anew, in_order, interval, mean, real, spearman, tau_c};

/// The name of the weights that this run makes.
const VERSION: &str = "0.1-provisional";
/// The name of the scale of levels.
const SCALE: &str = "five-names-0.1";

/// What a run gives.
pub(crate) struct Outcome {
    /// The file of weights.
    pub(crate) weights: String,
    /// The record.
    pub(crate) record: String,
}

/// A way to foretell marks.
struct Way {
    name: &'static str,
    /// A number for each marked sheet, for the ranks.
    ranked: Vec<f64>,
    /// The same for every sheet.
    all: Vec<f64>,
    /// A mark for each marked sheet, its author left out.
    foretold: Vec<f64>,
}

/// Fits, leaves authors out, and writes all of it down.
pub(crate) fn calibrate(labelled: &[Labelled]) -> Outcome {
    let cases: Vec<Case> = labelled.iter().map(|l| l.case.clone()).collect();
    let shape = shape();
    let shape = Some(&shape);
    let penalty = fit::penalty(&cases, shape);
    let told = fit::told(&cases);
    let mut weights = fit::weights(&told, penalty, shape);
    weights.iter_mut().for_each(|w| *w = (*w * 1000.0).round() / 1000.0);

    let marked: Vec<usize> = (0..cases.len()).filter(|i| cases[*i].trust >= 1.0).collect();
    let of = |all: &[f64]| -> Vec<f64> { marked.iter().map(|i| all[*i]).collect() };
    let foretold = fit::left_out(&cases, shape);
    let mut ways =
        vec![Way { name: "score", ranked: of(&foretold), all: foretold.clone(), foretold: of(&foretold) }];
    let changes = |l: &Labelled| l.value("changes_mean") * l.value("counts") * 60.0 / l.value("tempo");
    type Measured<'a> = (&'static str, &'a dyn Fn(&Labelled) -> f64);
    let plain: [Measured<'_>; 5] = [
        ("counts alone", &|l| l.value("counts")),
        ("weight changes alone", &changes),
        ("weight changes a second", &|l| l.value("changes_mean")),
        ("distinct figures", &|l| l.value("figures")),
        ("distinct patterns", &|l| l.value("patterns")),
    ];
    for (name, value) in plain {
        let values: Vec<f64> = labelled.iter().map(value).collect();
        let foretold = fit::line_left_out(&cases, &values);
        ways.push(Way { name, ranked: of(&values), foretold: of(&foretold), all: values });
    }
    let equal = vec![fit::equal(&told); weights.len()];
    let equals: Vec<f64> = cases.iter().map(|c| fit::predicted(&equal, &c.notches)).collect();
    let line = fit::line_left_out(&cases, &equals);
    ways.push(Way { name: "all weights equal", ranked: of(&equals), foretold: of(&line), all: equals });

    let marks: Vec<f64> = marked.iter().map(|i| cases[*i].mark).collect();
    let levels: Vec<f64> = marked.iter().map(|i| labelled[*i].level.unwrap_or(0.0)).collect();
    let rest: Vec<f64> = marks.iter().zip(&ways[0].foretold).map(|(m, f)| m - f).collect();
    let spread_of_errors = (rest.iter().map(|r| r * r).sum::<f64>() / real(rest.len())).sqrt();
    // Four in five of a normal spread lie within 1.2816 of its deviations.
    let margin = (1.281_6 * spread_of_errors * 10.0).round() / 10.0;
    let (borders, spread) = levels_of(labelled, &foretold);

    let mut file = format!(
        "# Written by cargo xtask calibrate from calibration/labels.tsv; its record is calibration/record.md.\n\
         version\t{VERSION}\nscale\t{SCALE}\n"
    );
    for ((name, _), weight) in scored().iter().zip(&weights) {
        let _ = writeln!(file, "weight\t{name}\t{}", decimal(*weight, 3));
    }
    for (level, border) in LEVELS.iter().skip(1).zip(borders) {
        let _ = writeln!(file, "level\t{level}\t{}", decimal(border, 1));
    }
    let _ = writeln!(file, "spread\t{}\nmargin\t{}", decimal(spread, 1), decimal(margin, 1));

    let mut page = opening(labelled, penalty, fit::equal(&told));
    page += &errors(&ways, &marks, &levels);
    page += &by_name(&ways, labelled);
    page += &sheets(labelled, &marked, &foretold, &weights, &borders);
    page += &levels_in_words(&borders, spread, margin);
    Outcome { weights: file, record: page }
}

/// What holds between weights whatever the labels say.
fn shape() -> fit::Shape {
    let scored = scored();
    let place = |name: &str| {
        let place = scored.iter().position(|s| s.0 == name).unwrap_or(0);
        (place, scored[place].1)
    };
    fit::Shape { half: place("halves"), held: ["turn_reversals", "sharp_changes"].map(place) }
}

/// Borders half-way between the mean scores of neighbouring levels, and the spread that makes the labels
/// likeliest. Hardly any sheet is labelled advanced, so that border is one mean distance further up.
fn levels_of(labelled: &[Labelled], foretold: &[f64]) -> ([f64; 4], f64) {
    let label = |l: &Labelled| l.level.unwrap_or(l.case.named);
    let mean_of = |level: f64| {
        let same = labelled.iter().zip(foretold).filter(|(l, _)| (label(l) - level).abs() < 0.1);
        mean(&same.map(|(_, f)| *f).collect::<Vec<_>>())
    };
    let means = [1.0, 2.0, 3.0, 4.0].map(mean_of);
    let mut borders = [0.0; 4];
    for (k, border) in borders.iter_mut().take(3).enumerate() {
        *border = (f64::midpoint(means[k], means[k + 1]) * 10.0).round() / 10.0;
    }
    borders[1] = borders[1].max(borders[0]);
    borders[2] = borders[2].max(borders[1]);
    borders[3] = (10.0 * (borders[2] + (borders[2] - borders[0]) / 2.0)).round() / 10.0;
    let likelihood = |spread: f64| -> f64 {
        let one = |(l, f): (&Labelled, &f64)| {
            let at_least = |level: f64| match level {
                l if l <= 1.0 => 1.0,
                l if l >= 6.0 => 0.0,
                l => logistic(
                    (f - borders[if l < 2.5 {
                        0
                    } else if l < 3.5 {
                        1
                    } else if l < 4.5 {
                        2
                    } else {
                        3
                    }]) / spread,
                ),
            };
            let level = label(l);
            l.case.trust * ln((at_least(level) - at_least(level + 1.0)).max(1e-9))
        };
        labelled.iter().zip(foretold).map(one).sum()
    };
    let mut best = (f64::NEG_INFINITY, 5.0);
    for tenth in 10..200 {
        let spread = f64::from(tenth) / 10.0;
        let found = likelihood(spread);
        if found > best.0 {
            best = (found, spread);
        }
    }
    (borders, best.1)
}

fn opening(labelled: &[Labelled], penalty: f64, equal: f64) -> String {
    let marked = labelled.iter().filter(|l| l.case.trust >= 1.0).count();
    let authors = fit::authors(&labelled.iter().map(|l| l.case.clone()).collect::<Vec<_>>()).len();
    let unread: usize = labelled.iter().filter(|l| l.unread > 0).count();
    let named = |level: f64| labelled.iter().filter(|l| (l.case.named - level).abs() < 0.1).count();
    let mut page = format!(
        "# Record of the calibration\n\n\
         Written by `cargo xtask calibrate`; do not edit. Weights {VERSION}, scale of levels {SCALE}.\n\n\
         ## What the labels are\n\n\
         {} invented sheets by {authors} invented authors, no dance that exists. {marked} of them have a mark \
         from 0 to 100 and a level, the mean and median of three blind readings of the written sheet that hardly \
         differ from each other; the other {} have only the level that the sheet names (some carry a planted \
         fault), which is taken for the mean mark of that name and counts {} of a mark. No teacher, no class and \
         no dance floor stands behind any of it. {} are named for absolute beginners and {} for advanced \
         dancers. That is enough to start from and to catch nonsense, and \
         not enough to claim anything about real classes; the output therefore calls itself provisional. \
         `protocol.md` says how real judgements are collected.\n\n",
        labelled.len(),
        labelled.len() - marked,
        decimal(fit::NAME, 2),
        named(1.0),
        named(5.0),
    );
    if unread > 0 {
        let _ = writeln!(
            page,
            "{unread} of the sheets were not read whole; their measures are those of what was read.\n"
        );
    }
    let _ = write!(
        page,
        "## How the weights are found\n\n\
         Least squares on the marks with every weight above zero, drawn toward equal weights: floors and notches are set by hand, \
         with these sheets in view; each notch of each measure is first worth {} points, and a squared point of a weight's distance from that costs as much as \
         {} squared points of a mark. The penalty is the greatest of {} whose mean absolute error, each author left out \
         in turn, is within one standard error of the best. Scores are points added up, without a constant, between 0 and 100; n \
         notches of a measure count as 2 (sqrt(1 + n) - 1), which was chosen after a straight line and two others \
         had been seen to foretell worse at both ends. No weight is \
         less than {} of the equal one, because so few labels cannot say that a measure does not matter; and a \
         reversal of a turn together with a sharp change of way is worth less than one action on a half-count, so \
         that no added step can make a dance easier.\n\n",
        decimal(equal, 2),
        decimal(penalty, 1),
        fit::PENALTIES.map(|p| decimal(p, 1)).join(", "),
        decimal(fit::LEAST, 2),
    );
    page
}

fn errors(ways: &[Way], marks: &[f64], levels: &[f64]) -> String {
    let n = marks.len();
    let mut page = format!(
        "## Errors, each author left out\n\n\
         {n} marked sheets. Each is foretold by weights (for a plain number, by a rising line) fitted without its \
         author's sheets, the penalty chosen again without them. Spearman is against the marks, with the interval \
         of Bonett and Wright; Stuart's tau-c is against the levels, with the middle 95 % of 2,000 drawings of the \
         sheets. The plain numbers' ranks are their own, which favours them: their lines differ from author to \
         author, as the score's weights do.\n\n\
         | foretold by | Spearman | interval | tau-c | interval | pairs in order | mean abs. error | rms error |\n\
         | --- | --- | --- | --- | --- | --- | --- | --- |\n"
    );
    for way in ways {
        let rho = spearman(&way.ranked, marks);
        let (low, high) = interval(rho, n);
        let tau = tau_c(&way.ranked, levels);
        let (tau_low, tau_high) = drawn_anew(n, 2000, |drawn| {
            let pick = |v: &[f64]| -> Vec<f64> { drawn.iter().map(|i| v[*i]).collect() };
            tau_c(&pick(&way.ranked), &pick(levels))
        });
        let (right, all) = in_order(levels, &way.ranked, None);
        let rest: Vec<f64> = marks.iter().zip(&way.foretold).map(|(m, f)| (m - f).abs()).collect();
        let squares: Vec<f64> = rest.iter().map(|r| r * r).collect();
        let _ = writeln!(
            page,
            "| {} | {:.3} | {low:.2} to {high:.2} | {tau:.3} | {tau_low:.2} to {tau_high:.2} | {} of {all} | {:.1} | {:.1} |",
            way.name,
            rho,
            decimal(right, 1),
            mean(&rest),
            mean(&squares).sqrt(),
        );
    }
    page.push_str("\nPairs in order by how many levels they are apart:\n\n| foretold by | 1 | 2 | 3 |\n| --- | --- | --- | --- |\n");
    for way in ways {
        let cell = |gap: f64| {
            let (right, all) = in_order(levels, &way.ranked, Some(gap));
            format!("{} of {all}", decimal(right, 1))
        };
        let _ = writeln!(page, "| {} | {} | {} | {} |", way.name, cell(1.0), cell(2.0), cell(3.0));
    }
    page.push('\n');
    page
}

/// All sheets against the level that each names.
fn by_name(ways: &[Way], labelled: &[Labelled]) -> String {
    let named: Vec<f64> = labelled.iter().map(|l| l.case.named).collect();
    let mut page = format!(
        "All {} sheets against the level that each names, authors left out as before. Names differ from writer to \
         writer, and nobody has read most of these dances blind.\n\n\
         | foretold by | Spearman | interval | tau-c | pairs 1 apart | 2 apart | 3 apart |\n\
         | --- | --- | --- | --- | --- | --- | --- |\n",
        labelled.len()
    );
    for way in ways {
        let rho = spearman(&way.all, &named);
        let (low, high) = interval(rho, named.len());
        let cell = |gap: f64| {
            let (right, all) = in_order(&named, &way.all, Some(gap));
            format!("{} of {all}", decimal(right, 1))
        };
        let _ = writeln!(
            page,
            "| {} | {rho:.3} | {low:.2} to {high:.2} | {:.3} | {} | {} | {} |",
            way.name,
            tau_c(&way.all, &named),
            cell(1.0),
            cell(2.0),
            cell(3.0)
        );
    }
    page.push('\n');
    page
}

fn sheets(
    labelled: &[Labelled],
    marked: &[usize],
    foretold: &[f64],
    weights: &[f64],
    borders: &[f64; 4],
) -> String {
    let level = |score: f64| LEVELS[borders.iter().filter(|b| score >= **b).count()];
    let mut page = String::from(
        "## Marked sheets, one by one\n\n\
         | sheet | mark | left out | fitted | level read | level left out | level named |\n\
         | --- | --- | --- | --- | --- | --- | --- |\n",
    );
    let (mut same, mut near) = (0, 0);
    for (index, l) in labelled.iter().enumerate() {
        if !marked.contains(&index) {
            continue;
        }
        let fitted = fit::predicted(weights, &l.case.notches).clamp(0.0, 100.0);
        let rank = borders.iter().filter(|b| foretold[index] >= **b).count();
        let read = l.level.map_or("-", |v| {
            let at = (1..=5_u32).find(|k| (f64::from(*k) - v).abs() < 0.1).unwrap_or(1);
            LEVELS[at as usize - 1]
        });
        if let Some(v) = l.level {
            let apart = (real(rank + 1) - v).abs();
            same += usize::from(apart < 0.1);
            near += usize::from(apart < 1.1);
        }
        let mark = decimal(l.case.mark, 1);
        let _ = writeln!(
            page,
            "| {} | {mark} | {:.1} | {fitted:.1} | {read} | {} | {} |",
            l.file,
            foretold[index],
            level(foretold[index]),
            l.named
        );
    }
    let _ = writeln!(
        page,
        "\nThe level of the left-out score is the level read in {same} of {} sheets and at most one away in {near}. \
         The borders of the levels are from all sheets, so this is a little too good.\n",
        marked.len()
    );
    page
}

fn levels_in_words(borders: &[f64; 4], spread: f64, margin: f64) -> String {
    let [a, b, c, d] = borders.map(|b| decimal(b, 1));
    format!(
        "## Levels and range\n\n\
         A level begins half-way between the mean left-out scores of its sheets and those of the level below: \
         beginner at {a}, improver at {b}, intermediate at {c}. There are too few advanced sheets to place their \
         border: at {d}, one mean distance above the last, it is a guess. One level passes into the next over a spread of {} points \
         (logistic; the likeliest for these labels; the odds change by {} for each spread). The range of a score is \
         {} points to either side, in which four in five of the labels lie when their author is left out.\n",
        decimal(spread, 1),
        decimal(exp(1.0), 2),
        decimal(margin, 1),
    )
}

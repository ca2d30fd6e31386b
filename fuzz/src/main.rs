//! `cargo run --profile fuzz -p fuzz -- LAW...`: tries laws on sheets spoilt in many ways.
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a command of the terminal")]

use std::collections::BTreeMap;
use std::process::ExitCode;
use std::time::{Duration, Instant};
use std::{env, fs};

use fuzz::chance::Chance;
use fuzz::change::changed;
use fuzz::shrink::{kind, shrunk};
use fuzz::{LAWS, Law, corpus, laws, tried};

const HELP: &str = "\
fuzz LAW... [--seconds N] [--seed N] [--every prefixes|lines] [--keep FOLDER] [--text FILE]

Tries the laws on sheets spoilt in many ways, each for N seconds (10 without a word), or with --every on every
prefix or on every sheet without one of its lines, or with --text on one file. What breaks a law is made short and put into FOLDER
(target/fuzz); the exit status is 1 if there was any.";

/// Longest text that is tried: longer ones say nothing new and take their time.
const LONGEST: usize = 6000;

struct Asked {
    laws: Vec<&'static Law>,
    seconds: u64,
    seed: u64,
    every: Option<String>,
    keep: String,
    text: Option<String>,
}

fn asked() -> Result<Asked, String> {
    let mut asked = Asked {
        laws: Vec::new(),
        seconds: 10,
        seed: 1,
        every: None,
        keep: "target/fuzz".to_owned(),
        text: None,
    };
    let mut words = env::args().skip(1);
    while let Some(word) = words.next() {
        let mut value = || words.next().ok_or_else(|| format!("{word} needs a value"));
        let number = |value: String| value.parse().map_err(|_| format!("{value} is no number"));
        match word.as_str() {
            "--seconds" => asked.seconds = number(value()?)?,
            "--seed" => asked.seed = number(value()?)?,
            "--every" => asked.every = Some(value()?),
            "--text" => asked.text = Some(value()?),
            "--keep" => asked.keep = value()?,
            name => asked.laws.push(laws::law(name).ok_or_else(|| format!("there is no law {name}"))?),
        }
    }
    if asked.laws.is_empty() { Err(HELP.to_owned()) } else { Ok(asked) }
}

fn main() -> ExitCode {
    let asked = match asked() {
        Ok(asked) => asked,
        Err(sentence) => {
            eprintln!("{sentence}");
            for law in LAWS {
                eprintln!("  {:8} {}", law.name, law.says);
            }
            return ExitCode::FAILURE;
        }
    };
    let broken = asked.laws.iter().map(|law| run(law, &asked)).sum::<usize>();
    if broken == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// How many different ways of breaking the law were found.
fn run(law: &Law, asked: &Asked) -> usize {
    if let Some(file) = &asked.text {
        let text =
            fs::read(file).map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).unwrap_or_default();
        let broken = tried(law, &text);
        println!("{}: {}", law.name, broken.as_ref().err().map_or("holds", String::as_str));
        return usize::from(broken.is_err());
    }
    let begin = if law.of_figures { corpus::figures() } else { corpus::sheets() };
    let mut found: BTreeMap<String, (u64, String, String)> = BTreeMap::new();
    let (mut runs, mut slowest) = (0_u64, Duration::ZERO);
    let mut slow = String::new();
    let started = Instant::now();
    let mut take = |text: &str| {
        let at = Instant::now();
        if let Err(sentence) = tried(law, text) {
            let entry = found.entry(kind(&sentence).to_owned());
            let entry = entry.or_insert_with(|| (0, sentence, text.to_owned()));
            entry.0 += 1;
        }
        runs += 1;
        if at.elapsed() > slowest {
            slowest = at.elapsed();
            text.clone_into(&mut slow);
        }
    };
    match asked.every.as_deref() {
        Some("prefixes") => {
            for (_, text) in &begin {
                text.char_indices().for_each(|(at, _)| take(&text[..at]));
            }
        }
        Some(_) => {
            for (_, text) in &begin {
                let lines: Vec<&str> = text.split_inclusive('\n').collect();
                (0..lines.len()).for_each(|i| take(&[&lines[..i], &lines[i + 1..]].concat().concat()));
            }
        }
        None => {
            begin.iter().for_each(|(_, text)| take(text));
            let mut chance = Chance::new(asked.seed);
            while started.elapsed().as_secs() < asked.seconds {
                let (one, other) = (chance.below(begin.len()), chance.below(begin.len()));
                let text = changed(&begin[one].1, &begin[other].1, &mut chance);
                if text.len() <= LONGEST {
                    take(&text);
                }
            }
        }
    }
    let seconds = started.elapsed().as_secs_f64();
    println!("{}: {runs} texts in {seconds:.0} s, slowest {} ms", law.name, slowest.as_millis());
    let _ = fs::create_dir_all(&asked.keep);
    for (at, (times, sentence, text)) in found.values().enumerate() {
        let short = shrunk(law, text, sentence);
        let file = format!("{}/{}-{}-{at}.txt", asked.keep, law.name, asked.seed);
        println!("  broken {times} times: {sentence}\n    {file}: {short:?}");
        if let Err(error) = fs::write(&file, &short) {
            eprintln!("{file}: {error}");
        }
    }
    let _ = fs::write(format!("{}/{}-slowest.txt", asked.keep, law.name), slow);
    found.len()
}

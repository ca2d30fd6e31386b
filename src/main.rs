//! The command line: arguments in, answers and an exit status out. It holds no rule of dance.

mod cli;

fn main() -> std::process::ExitCode {
    cli::run(std::env::args_os())
}

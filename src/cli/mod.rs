//! The command line: one file a command. The same engine as the console,
//! without a screen.

mod advise;
mod answer;
mod before;
mod card;
mod check;
mod close;
mod console;
mod contract;
mod doctor;
mod hand_over;
mod json;
mod look;
mod mistyped;
mod moves;
mod new;
mod open;
mod outcome;
mod page;
mod practice;
mod print;
mod proof;
mod report;
mod shot;
mod undo;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{CommandFactory as _, Parser, Subcommand};

use outcome::{Failure, FileOnly, Outcome, safe, warn};

const EXAMPLES: &str = "\
Examples:
  tearbench                                       the console on a demo session, not kept
  tearbench bow.toml                              open that session, or begin it
  tearbench new bow.toml --card card.toml         begin a session from a set-up card
  tearbench shot bow.toml \"12 left 4 high\"        record a tear
  tearbench move bow.toml \"rest left 1.5 mm\"      record what was moved
  tearbench advise bow.toml                       what to do next, and why

Cautions: a bow is a weapon. Safe backstop, nobody beside or past the paper, eye
protection, never a dry fire, never an arrow under the maker's minimum or a damaged
shaft. The bow maker's limits and local law come first; press work is for trained people.";

/// Tune a bow through paper: record tears, check archer and arrow, get the next move.
#[derive(Debug, Parser)]
#[command(name = "tearbench", version, long_version = version(), about, after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
pub(crate) struct Cli {
    /// Session file for the console; a demo that is not kept where absent
    pub(crate) file: Option<PathBuf>,
    /// How the console looks
    #[command(flatten)]
    pub(crate) look: console::LookArgs,
    /// What to do without a screen
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
}

/// What can be done without a screen.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Begin a session from a set-up card; never replaces a file
    New(new::NewArgs),
    /// Record one or several tears
    #[command(
        after_help = "Tears as people say them: \"12 left 4 high\", \"l12 h4\", \"1/2 in left\", \"clean\"; several: \"12l4h; 9l3h; clean\""
    )]
    Shot(shot::ShotArgs),
    /// Record a move that was made
    #[command(
        after_help = "Moves: \"rest left 1.5 mm\", \"rest up 2 clicks\", \"nock down 1 mm\", \"plunger firmer 1/8 turn\",\n\"yoke left +1/2 twist\", \"rest at 19.3 mm\" (calipers); several with commas.\nForgotten: tearbench move bow.toml \"rest left 1.5 mm\" --before 5"
    )]
    Move(moves::MoveArgs),
    /// Hand shots to the session of the bow they were shot with
    #[command(
        after_help = "Example: tearbench hand-over green.toml --to blue.toml --entries 5-9\nThey are copied first and undone second; a stop between leaves them in both, and both files say so."
    )]
    HandOver(hand_over::HandOverArgs),
    /// Record the answer to a test that is not a tear
    #[command(
        after_help = "Examples: tearbench answer bow.toml contact none\n          tearbench answer bow.toml inspect-limbs sound"
    )]
    Answer(answer::AnswerArgs),
    /// Record a note
    Note(answer::NoteArgs),
    /// Undo the latest entry, or the one named; it stays in the file
    Undo(undo::UndoArgs),
    /// Redo the entry undone last
    Redo(FileOnly),
    /// Show the card, or change it: key=value ...
    #[command(
        after_help = "Example: tearbench card bow.toml bow.peak_weight=\"62 lb\" bow.weighed=true"
    )]
    Card(card::CardArgs),
    /// Start over: forget the likely tear, keep the learned response
    Restart(answer::RestartArgs),
    /// Record a dry fire, a derailed string, a struck or broken arrow, a lost nock, a missed backstop
    #[command(after_help = "Shooting stops until every part was looked at: tearbench next FILE")]
    Incident(answer::IncidentArgs),
    /// What to do next, and why
    Advise(advise::AdviseArgs),
    /// Before paper: the checklist with how each item stands; record one
    #[command(
        after_help = "Examples: tearbench before bow.toml                              the whole list\n          tearbench before bow.toml range                        the range safety list; range ok answers it\n          tearbench before bow.toml range-clear off              one item is not in order\n          tearbench before bow.toml brace-height                 how it is measured\n          tearbench before bow.toml brace-height \"7 1/8 in\"       a figure, judged\n          tearbench before bow.toml cam-lean ok                  or off, or skip\n          tearbench before bow.toml press-work done              also new-string, new-cables"
    )]
    Before(before::BeforeArgs),
    /// What to do after a refusal, one step at a time; answer it
    #[command(
        after_help = "Examples: tearbench next bow.toml       the step that comes next\n          tearbench next bow.toml none  one of its answers"
    )]
    Next(proof::NextArgs),
    /// After paper: the stages of proof and what comes next; record a group
    #[command(
        after_help = "Examples: tearbench proof bow.toml\n          tearbench proof bow.toml levels ok\n          tearbench proof bow.toml bare-shaft                     how it is shot safely\n          tearbench proof bow.toml bare-shaft bare \"18 m\" \"3 left 2 high; 1 right; spot\"\n          tearbench proof bow.toml walk-back skip"
    )]
    Proof(proof::ProofArgs),
    /// The tuning sheet for the owner: text, Markdown, HTML or JSON
    Report(report::ReportArgs),
    /// The put-back sheet: settings, differences, the moves that return the bow
    #[command(visible_alias = "sheet")]
    PutBack(report::SheetArgs),
    /// Close the job: done when the verdict says so, stopped, or best with these arrows
    #[command(
        after_help = "Examples: tearbench close bow.toml                            done where the verdict is done, else stopped\n          tearbench close bow.toml best-with-these-arrows     the arrows do not match and there are no others\nShooting or moving on opens it again."
    )]
    Close(close::CloseArgs),
    /// The sessions of a folder
    List(report::ListArgs),
    /// Two sessions of one bow: what moved, what changed in the tears
    Compare(report::CompareArgs),
    /// Check the file: exit 0 when it is whole, 1 when something was lost
    Check(check::CheckArgs),
    /// Practise on a virtual bow with something wrong with it
    #[command(
        after_help = "Nothing of the bow is kept unless you save it; how you do is counted. Levels: \n1 one thing to move; 2 either way or both; 3 fingers, contact, archers who do not repeat;\n4 it may be the arrow; 5 two troubles at once."
    )]
    Practice(practice::PracticeArgs),
    /// What this terminal and folder can do, in ten lines to paste into a report
    Doctor(doctor::DoctorArgs),
    /// Print what the system around the program wants
    #[command(subcommand)]
    Print(print::Print),
}

/// The version, with what it was built as and for.
fn version() -> &'static str {
    static VERSION: std::sync::LazyLock<String> = std::sync::LazyLock::new(|| {
        let profile = if cfg!(debug_assertions) {
            "checked (debug assertions on)"
        } else {
            "release"
        };
        format!(
            "{}\nbuild: {profile}\ntarget: {} {}\nsession file format: {}\nadvise --json schema: {}",
            env!("CARGO_PKG_VERSION"),
            std::env::consts::ARCH,
            std::env::consts::OS,
            crate::gear::FORMAT,
            crate::words::SCHEMA,
        )
    });
    &VERSION
}

/// Runs the program.
pub fn run() -> ExitCode {
    // A limit on the size of a file is an error to be told, no end.
    let _ = crate::tui::terminal::outlive_size_limits();
    if let Some(message) = mistyped::command(&Cli::command(), std::env::args_os().nth(1)) {
        return complain(&message, 2);
    }
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(told) => return tell(&told),
    };
    let outcome = match cli.command {
        None => console::run(cli.file, &cli.look),
        Some(command) => command.run(),
    };
    match outcome {
        Ok(code) => ExitCode::from(code),
        Err(Failure::Input(message)) => complain(&message, 2),
        Err(Failure::Other(message)) => complain(&message, 1),
    }
}

/// The longest line of an error in the arguments, characters.
const LONGEST_LINE: usize = 240;

/// Prints the help, or what is wrong with the arguments, in which nothing is
/// passed on that a terminal would act on.
fn tell(told: &clap::Error) -> ExitCode {
    use std::io::Write as _;
    let cut = |line: &str| {
        let mut line = safe(line);
        // What was typed by mistake may be a whole page.
        if told.use_stderr() && line.chars().count() > LONGEST_LINE {
            line = line
                .chars()
                .take(LONGEST_LINE)
                .chain("...".chars())
                .collect();
        }
        line
    };
    let text: Vec<String> = told.render().to_string().lines().map(cut).collect();
    let text = text.join("\n");
    let text = text.trim_end();
    let _ = if told.use_stderr() {
        writeln!(std::io::stderr(), "{text}")
    } else {
        writeln!(std::io::stdout(), "{text}")
    };
    ExitCode::from(u8::try_from(told.exit_code()).unwrap_or(2))
}

fn complain(message: &str, code: u8) -> ExitCode {
    message.lines().for_each(warn);
    ExitCode::from(code)
}

impl Command {
    fn run(self) -> Outcome {
        match self {
            Self::New(args) => new::run(&args),
            Self::Shot(args) => shot::run(&args),
            Self::Move(args) => moves::run(&args),
            Self::HandOver(args) => hand_over::run(&args),
            Self::Answer(args) => answer::run(&args),
            Self::Note(args) => answer::note(&args),
            Self::Undo(args) => undo::undo(&args),
            Self::Redo(args) => undo::redo(&args),
            Self::Card(args) => card::run(&args),
            Self::Restart(args) => answer::restart(&args),
            Self::Incident(args) => answer::incident(&args),
            Self::Advise(args) => advise::run(&args),
            Self::Before(args) => before::run(&args),
            Self::Next(args) => proof::next(&args),
            Self::Proof(args) => proof::run(&args),
            Self::Report(args) => report::report(&args),
            Self::PutBack(args) => report::sheet(&args),
            Self::Close(args) => close::run(&args),
            Self::List(args) => report::list(&args),
            Self::Compare(args) => report::compare(&args),
            Self::Check(args) => check::run(&args),
            Self::Practice(args) => practice::run(&args),
            Self::Doctor(args) => doctor::run(&args),
            Self::Print(what) => print::run(&what, Cli::command()),
        }
    }
}

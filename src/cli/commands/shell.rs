//! `completions` and `man`: both made from the definitions of the arguments.

use clap::CommandFactory;
use clap_complete::Shell;
use clap_mangen::Man;

use crate::cli::args::Args;
use crate::cli::exit::Exit;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;

/// Prints the completions of `shell`.
///
/// # Errors
/// [`Stop`] when they cannot be printed.
pub fn completions(shell: Shell, terminal: &Terminal) -> Result<Exit, Stop> {
    let mut command = Args::command();
    let name = command.get_name().to_owned();
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut command, name, &mut text);
    terminal.data(&text)?;
    Ok(Exit::Done)
}

/// Prints the manual page.
///
/// # Errors
/// [`Stop`] when it cannot be printed.
pub fn man(terminal: &Terminal) -> Result<Exit, Stop> {
    let mut text = Vec::new();
    Man::new(Args::command()).render(&mut text).map_err(|source| Stop::Unprintable { source })?;
    terminal.data(&text)?;
    Ok(Exit::Done)
}

//! What the sessions of a folder have taught.

/// Where nothing was taught yet.
pub(crate) const NOTHING: &str = "Nothing yet. A bow teaches once it was shot, moved and shot again. Practice, samples and bows with contact teach nothing.";

/// How the charts are read; so many of so many files were read.
pub(crate) fn legend((read, of): (usize, usize)) -> String {
    let some = match read < of {
        true => format!(" The newest {read} of {of} files were read."),
        false => String::new(),
    };
    format!(
        "The newest bow stands first, each as a right-handed bow responds. The mark is the response that its shots show, the line its uncertainty.{some}"
    )
}

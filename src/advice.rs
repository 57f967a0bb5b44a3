//! The order of the checks, the verdict, and its JSON form.

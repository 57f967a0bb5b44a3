//! The mechanics: column, launch, flight, paper.

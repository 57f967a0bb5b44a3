//! What is known about this bow, its response and its shooters.

//! What the paper shows: reading and writing tears.

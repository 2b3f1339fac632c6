//! Every verb's form and answer: read, checked, explained, printed.

//! Labels and the marking strip: PDF and codes, millimetres true.

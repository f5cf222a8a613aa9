//! What the source and the committed JSON pages of satline are held to; `checks/README.md` says what each module answers.

mod bare_numbers;
mod crate_tree;
mod error_phrases;
mod json_schema;
mod listing;
mod long_functions;
mod no_sentences;
mod no_text_in_logic;
mod public_face;
mod source;

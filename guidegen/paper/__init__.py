"""What trainers print: cards, booklets and sheets, set with Typst."""

"""Cards on paper: drawn, imposed on sheets, and boxed for the printer."""

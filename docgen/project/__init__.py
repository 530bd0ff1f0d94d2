"""What may be written in the file, checked and resolved: fields, statements, sizes, parts."""

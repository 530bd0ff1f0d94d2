"""Story sticks at true size: pieces of the stick, its marks, their labels fanned out, the whole reduced."""

"""A question's formula: text read into a tree, and all that follows from the tree."""

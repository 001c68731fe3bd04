"""The rule base read by itself: listed, explained, checked, and printed as a book."""

"""The sourced tables: read, checked row by row, handed out as typed rows."""

"""The words that stand as strings in code, docstrings left out: they assert nothing."""

import ast
from collections.abc import Iterator


def said(tree: ast.AST) -> Iterator[str]:
    r"""Yield every string of a piece of code that is not a statement by itself.

    Examples
    --------
    >>> list(said(ast.parse("'''A word.'''\nreturned = ['another']")))
    ['another']
    """
    if isinstance(tree, ast.Expr) and isinstance(tree.value, ast.Constant):
        return
    if isinstance(tree, ast.Constant) and isinstance(tree.value, str):
        yield tree.value
    for child in ast.iter_child_nodes(tree):
        yield from said(child)

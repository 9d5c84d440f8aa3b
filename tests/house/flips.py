"""Every flip of a sign, bound, factor, comparison or joint of a module, for `mutation.py`."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass

TURNED: dict[type[ast.AST], tuple[type[ast.AST], ...]] = {
    ast.Add: (ast.Sub,),
    ast.Sub: (ast.Add,),
    ast.Mult: (ast.Div,),
    ast.Div: (ast.Mult,),
    ast.FloorDiv: (ast.Mult,),
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt, ast.GtE),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt, ast.LtE),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.And: (ast.Or,),
    ast.Or: (ast.And,),
}


@dataclass(frozen=True)
class Flip:
    """One flip: where it is, the lines of its statement, and what it makes of the module."""

    module: str  # such as engineering/wear.py
    line: int
    column: int
    words: str
    lines: range
    text: str

    def __str__(self) -> str:
        return f"{self.module}:{self.line}:{self.column} {self.words}"


def flips_of(module: str, source: str) -> list[Flip]:
    """Every flip of a module, in the order of its text."""
    tree = ast.parse(source)
    return [
        Flip(module, node.lineno, node.col_offset + 1, words, lines, text)
        for node, lines in list(_judging(tree, range(0)))
        for words, text in _flipped(node, tree)
    ]


def _judging(tree: ast.AST, lines: range) -> Iterator[tuple[ast.expr, range]]:
    """The expressions that reckon or compare, with the lines of their statement; annotations and words are none."""
    if isinstance(tree, ast.stmt):
        body = getattr(tree, "body", None)
        last = body[0].lineno - 1 if body else tree.end_lineno or tree.lineno
        lines = range(tree.lineno, max(last, tree.lineno) + 1)
    for name, value in ast.iter_fields(tree):
        if name in ("annotation", "returns", "type_params"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.BinOp | ast.Compare | ast.BoolOp | ast.UnaryOp | ast.Constant):
                yield child, lines
            if isinstance(child, ast.AST):
                yield from _judging(child, lines)


def _flipped(node: ast.expr, tree: ast.Module) -> Iterator[tuple[str, str]]:
    if isinstance(node, ast.BoolOp) or (isinstance(node, ast.BinOp) and not _joins_words(node)):
        for other in TURNED.get(type(node.op), ()):
            yield f"{type(node.op).__name__} -> {other.__name__}", _with(node, "op", other(), tree)
    elif isinstance(node, ast.Compare):
        for number, sign in enumerate(node.ops):
            for other in TURNED.get(type(sign), ()):
                signs = [*node.ops[:number], other(), *node.ops[number + 1 :]]
                yield f"{type(sign).__name__} -> {other.__name__}", _with(node, "ops", signs, tree)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield "- -> +", _with(node, "op", ast.UAdd(), tree)
    elif isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        yield f"{node.value} -> {node.value * 2 or 1}", _with(node, "value", node.value * 2 or 1, tree)


def _with(node: ast.expr, name: str, other: object, tree: ast.Module) -> str:
    """The text of a module where one thing of one node is another."""
    was = getattr(node, name)
    setattr(node, name, other)
    try:
        return ast.unparse(tree)
    finally:
        setattr(node, name, was)


def _joins_words(node: ast.BinOp) -> bool:
    """Whether a `+` joins texts or lists: turned round it only crashes, which any test would see."""
    return any(isinstance(side, ast.JoinedStr | ast.List | ast.Tuple | ast.Dict | ast.Set)
               or (isinstance(side, ast.Constant) and isinstance(side.value, str))
               or (isinstance(side, ast.BinOp) and _joins_words(side))
               for side in (node.left, node.right))  # fmt: skip

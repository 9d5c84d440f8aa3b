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
    """One flip: where it is, the lines of its statement, and which of its module's flips it is."""

    module: str  # such as engineering/wear.py
    line: int
    column: int
    words: str
    stands: str  # the text of what is flipped
    text: str  # the line it begins on
    lines: range
    at_import: bool  # not in a function: only a module read anew has it
    number: int

    def __str__(self) -> str:
        return f"{self.module}:{self.line}:{self.column} {self.words} in `{self.stands}`"


@dataclass(frozen=True)
class _Spot:
    """One thing of one node that may be another, with the lines of its statement."""

    node: ast.expr
    name: str
    other: object
    words: str
    lines: range
    at_import: bool


def flips_of(module: str, source: str) -> list[Flip]:
    """Every flip of a module, in the order of its text."""
    lines = source.splitlines()
    return [
        Flip(
            module=module,
            line=spot.node.lineno,
            column=spot.node.col_offset + 1,
            words=spot.words,
            stands=ast.unparse(spot.node),
            text=lines[spot.node.lineno - 1].strip(),
            lines=spot.lines,
            at_import=spot.at_import,
            number=number,
        )
        for number, spot in enumerate(_spots(ast.parse(source)))
    ]


def flipped(source: str, number: int) -> ast.Module:
    """A module with one flip made; its lines are those of the source."""
    tree = ast.parse(source)
    spot = list(_spots(tree))[number]
    setattr(spot.node, spot.name, spot.other)
    return ast.fix_missing_locations(tree)


def _spots(tree: ast.Module) -> Iterator[_Spot]:
    for node, lines, at_import in _judging(tree, range(0), at_import=True):
        for name, other, words in _turned(node):
            yield _Spot(node, name, other, words, lines, at_import)


def _judging(tree: ast.AST, lines: range, *, at_import: bool) -> Iterator[tuple[ast.expr, range, bool]]:
    """The expressions that reckon or compare, with the lines of their statement; annotations and words are none."""
    if isinstance(tree, ast.stmt):
        body = getattr(tree, "body", None)
        last = body[0].lineno - 1 if body else tree.end_lineno or tree.lineno
        lines = range(tree.lineno, max(last, tree.lineno) + 1)
    for name, value in ast.iter_fields(tree):
        if name in ("annotation", "returns", "type_params"):
            continue
        inside = name == "body" and isinstance(tree, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.BinOp | ast.Compare | ast.BoolOp | ast.UnaryOp | ast.Constant):
                yield child, lines, at_import and not inside
            if isinstance(child, ast.AST):
                yield from _judging(child, lines, at_import=at_import and not inside)


def _turned(node: ast.expr) -> Iterator[tuple[str, object, str]]:
    if isinstance(node, ast.BoolOp) or (isinstance(node, ast.BinOp) and not _joins_words(node)):
        for other in TURNED.get(type(node.op), ()):
            yield "op", other(), f"{type(node.op).__name__} -> {other.__name__}"
    elif isinstance(node, ast.Compare):
        for number, sign in enumerate(node.ops):
            for other in TURNED.get(type(sign), ()):
                signs = [*node.ops[:number], other(), *node.ops[number + 1 :]]
                yield "ops", signs, f"{type(sign).__name__} -> {other.__name__}"
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield "op", ast.UAdd(), "- -> +"
    elif isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        yield "value", node.value * 2 or 1, f"{node.value} -> {node.value * 2 or 1}"


def _joins_words(node: ast.BinOp) -> bool:
    """Whether a `+` joins texts or lists: turned round it only crashes, which any test would see."""
    return any(isinstance(side, ast.JoinedStr | ast.List | ast.Tuple | ast.Dict | ast.Set)
               or (isinstance(side, ast.Constant) and isinstance(side.value, str))
               or (isinstance(side, ast.BinOp) and _joins_words(side))
               for side in (node.left, node.right))  # fmt: skip

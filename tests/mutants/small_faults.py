"""Mutants of a module: its source with one small fault put in, such as a slip of the keys would make.

A **mutant** is one place in the source and what stands there instead. Left alone are words, types, assertions and what
is inside an f-string: a fault there is a fault of spelling, or is the type checker's to find. So is what cannot matter:
the raising of an AssertionError, the −1 by which an array is told to find its own length, and whether an allowance for
rounding (less than a millionth) is a quarter larger; that it becomes 1 is tried.
"""

import ast
import copy
import difflib
from collections.abc import Iterator
from typing import NamedTuple

COMPARED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
REPLACED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Add,
    ast.Pow: ast.Mult,
    ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd,
}
NUMBERS = ("float", "int", "complex", "Array", "Points")
"""What a function is said to return where its value can be negated."""


class Mutant(NamedTuple):
    """In `file`, the characters from `start` to `stop` become `instead`."""

    file: str
    start: int
    stop: int
    instead: str

    def applied(self, source: str) -> str:
        """The source with the fault in it."""
        return source[: self.start] + self.instead + source[self.stop :]

    def diff(self, source: str) -> str:
        """What it changes, as a diff without lines around it."""
        before, after = (text.splitlines(keepends=True) for text in (source, self.applied(source)))
        return "".join(list(difflib.unified_diff(before, after, self.file, self.file, n=0))[2:])

    def line(self, source: str) -> int:
        """In which line it starts, from 1."""
        return source.count("\n", 0, self.start) + 1

    def is_fault(self, source: str) -> bool:
        """Whether with it the source is still Python, and not the same as before."""
        try:
            return ast.dump(ast.parse(self.applied(source))) != ast.dump(ast.parse(source))
        except SyntaxError:
            return False


def mutants(file: str, source: str) -> list[Mutant]:
    """All mutants of a module in the order of their places; a few of them may be no fault."""
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    lines = source.splitlines()

    def place(line: int, column: int) -> int:
        return starts[line - 1] + len(lines[line - 1].encode()[:column].decode())

    found = []
    for node, instead in _changes(ast.parse(source)):
        end_line, end_column = node.end_lineno or node.lineno, node.end_col_offset or node.col_offset
        text = ast.unparse(instead)
        if isinstance(node, ast.expr) and not isinstance(node, ast.Constant):
            text = f"({text})"
        found.append(Mutant(file, place(node.lineno, node.col_offset), place(end_line, end_column), text))
    return sorted(found)


Statement = ast.stmt | ast.expr


ALLOWANCE = 1e-6
"""A number under this stands for nothing but what rounding may do."""


def _changes(tree: ast.AST, returns: str = "") -> Iterator[tuple[Statement, ast.AST]]:
    """Nodes with what may stand in their place; `returns` is what the function around them is said to return."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.Assert | ast.JoinedStr | ast.Import | ast.ImportFrom) or _is_type(tree, node):
            continue
        if _asserts(node) or _finds_its_length(tree, node):
            continue
        inner = ast.unparse(node.returns) if isinstance(node, ast.FunctionDef) and node.returns else returns
        if isinstance(node, ast.expr):
            yield from ((node, instead) for instead in _of_expression(node))
        elif isinstance(node, ast.stmt):
            yield from _of_statement(node, inner)
        yield from _changes(node, inner)


def _is_type(parent: ast.AST, node: ast.AST) -> bool:
    """Whether a node says of what type something is, to which class or decorator a definition belongs, or asserts."""
    if isinstance(parent, ast.AnnAssign | ast.arg):
        return node is parent.annotation
    if isinstance(parent, ast.FunctionDef):
        return node is parent.returns or node in parent.decorator_list
    if isinstance(parent, ast.ClassDef):
        return node in parent.decorator_list or node in parent.bases or node in parent.keywords
    if isinstance(node, ast.keyword) and node.arg == "strict":
        return True  # that two lists are as long as each other is an assertion
    return isinstance(parent, ast.Subscript) and isinstance(parent.value, ast.Name) and parent.value.id == "Literal"


def _asserts(node: ast.AST) -> bool:
    """Whether it is the raising of an AssertionError."""
    return isinstance(node, ast.Raise) and "AssertionError" in ast.unparse(node)


def _finds_its_length(parent: ast.AST, node: ast.AST) -> bool:
    """Whether a node is the −1 of `reshape`, which stands for the length that is left over."""
    reshapes = isinstance(parent, ast.Call) and ast.unparse(parent.func).endswith(".reshape")
    return reshapes and isinstance(node, ast.UnaryOp)


def _of_expression(node: ast.expr) -> Iterator[ast.AST]:
    match node:
        case ast.Constant(value=bool()):
            yield ast.Constant(not node.value)
        case ast.Constant(value=int() | float() as value):
            yield ast.Constant(value + 1)
            if value and abs(value) >= ALLOWANCE:
                yield ast.Constant(value * 1.25 if isinstance(value, float) else value - 1)
        case ast.Compare():
            for at, operator in enumerate(node.ops):
                for other in COMPARED[type(operator)]:
                    changed = copy.deepcopy(node)
                    changed.ops[at] = other()
                    yield changed
        case ast.BoolOp():
            yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
        case ast.BinOp() if type(node.op) in REPLACED and not _is_text(node):
            yield ast.BinOp(node.left, REPLACED[type(node.op)](), node.right)
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield node.operand
        case ast.IfExp():
            yield ast.IfExp(ast.UnaryOp(ast.Not(), node.test), node.body, node.orelse)


def _is_text(node: ast.BinOp) -> bool:
    """Whether words are joined: what else is done to them fails at once."""
    return any(isinstance(part, ast.JoinedStr) for part in (node.left, node.right))


def _of_statement(node: ast.stmt, returns: str) -> Iterator[tuple[Statement, ast.AST]]:
    match node:
        case ast.If() | ast.While():
            yield node.test, ast.UnaryOp(ast.Not(), node.test)
        case ast.Return(value=ast.expr() as value) if returns in NUMBERS:
            yield value, ast.UnaryOp(ast.USub(), value)
        case ast.Return(value=ast.expr() as value) if returns == "bool":
            yield value, ast.UnaryOp(ast.Not(), value)
        case ast.AugAssign() | ast.Continue() | ast.Break() | ast.Raise():
            yield node, ast.Pass()
        case ast.Expr(value=ast.Call()):
            yield node, ast.Pass()

"""Rules on one module's source, by its syntax tree: each function returns what breaks the rule."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

_BRANCHES = (ast.If, ast.IfExp, ast.For, ast.AsyncFor, ast.While, ast.ExceptHandler, ast.match_case)
_FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)
_G_AND_R = re.compile(r"9\.80?$|9\.81$|9\.80[67]|8\.314")


def literal_limits(source: str) -> list[str]:
    """Find comparisons with a number other than 0 and 1: limits live in data."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Compare):
            values = [_number(part) for part in (node.left, *node.comparators)]
            found += [f"line {node.lineno}: {value}" for value in values if value not in (None, 0, 1)]
    return found


def _number(node: ast.expr) -> float | None:
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, (ast.USub, ast.UAdd)):
        inner = _number(node.operand)
        return None if inner is None else (-inner if isinstance(node.op, ast.USub) else inner)
    if isinstance(node, ast.Constant) and isinstance(node.value, (int, float)) and not isinstance(node.value, bool):
        return float(node.value)
    return None


def second_g_or_r(source: str) -> list[str]:
    """Find literals that are the standard gravity or the gas constant again."""
    numbers = [n for n in ast.walk(ast.parse(source)) if isinstance(n, ast.Constant) and isinstance(n.value, float)]
    return [f"line {n.lineno}: {n.value}" for n in numbers if _G_AND_R.match(repr(n.value))]


def complexity(source: str, most: int) -> list[str]:
    """Find functions with more than so many ways through: one, and one for each branch, loop and handler."""
    found = []
    for function in _functions(source):
        ways = 1 + sum(isinstance(n, _BRANCHES) for n in _own_nodes(function))
        if ways > most:
            found.append(f"line {function.lineno}: {function.name} has {ways}")
    return found


def _own_nodes(function: ast.AST) -> Iterator[ast.AST]:
    for child in ast.iter_child_nodes(function):
        if not isinstance(child, _FUNCTIONS):
            yield child
            yield from _own_nodes(child)


def long_functions(source: str, most: int) -> list[str]:
    """Find functions of more than so many lines, the docstring not counted."""
    found = []
    for function in _functions(source):
        first = function.body[0]
        text = ast.get_docstring(function, clean=False)
        told = 0 if text is None else (first.end_lineno or 0) - first.lineno + 1
        lines = (function.end_lineno or 0) - function.lineno + 1 - told
        if lines > most:
            found.append(f"line {function.lineno}: {function.name} has {lines}")
    return found


def _functions(source: str) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    return [n for n in ast.walk(ast.parse(source)) if isinstance(n, _FUNCTIONS)]


def public_names(source: str) -> list[str]:
    """List what a module defines for others: functions, classes and constants without a leading underscore."""
    names: list[str] = []
    for node in ast.parse(source).body:
        if isinstance(node, (*_FUNCTIONS, ast.ClassDef)):
            names.append(node.name)
        elif isinstance(node, ast.Assign):
            names += [n.id for target in node.targets for n in ast.walk(target) if isinstance(n, ast.Name)]
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            names.append(node.target.id)
    return [n for n in dict.fromkeys(names) if not n.startswith("_")]


def thawed_records(source: str) -> list[str]:
    """Find dataclasses that do not stand on Frozen."""
    frozen, found = {"Frozen"}, []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.ClassDef) and any("dataclass" in ast.unparse(d) for d in node.decorator_list):
            if frozen & {ast.unparse(base).rpartition(".")[2] for base in node.bases}:
                frozen.add(node.name)
            else:
                found.append(f"line {node.lineno}: {node.name}")
    return found


def imports(source: str, of: str = "parbuckle") -> list[tuple[int, str]]:
    """List the modules that a source imports anywhere in it, as (line, dotted name)."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            inner = base == of or (base.count(".") == 1 and base.startswith(of + "."))
            found += [(node.lineno, f"{base}.{a.name}" if inner else base) for a in node.names]
    return list(dict.fromkeys(found))


def strangers(source: str, allowed: frozenset[str], known: frozenset[str]) -> list[str]:
    """Find imports of packages that a room may not use; ``known`` are those of Python itself."""
    tops = [(line, module.partition(".")[0]) for line, module in imports(source)]
    return [f"line {line}: {top}" for line, top in tops if top not in allowed | known]


def wrong_neighbours(source: str, earlier: frozenset[str], stages: frozenset[str]) -> list[str]:
    """Find imports between stages other than an earlier stage's result."""
    found = []
    for line, module in imports(source):
        parts = module.split(".")
        if parts[0] == "parbuckle" and len(parts) > 1 and parts[1] in stages:
            is_result = len(parts) > 2 and parts[2].endswith("result")
            if parts[1] not in earlier or not is_result:
                found.append(f"line {line}: {module}")
    return found


def docstring_only(source: str) -> bool:
    """Tell whether a package file holds its docstring, and at most plain constants beside it."""
    first, *rest = ast.parse(source).body or [ast.Pass()]
    told = isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str)
    return told and all(isinstance(n, ast.Assign) and isinstance(n.value, ast.Constant) for n in rest)

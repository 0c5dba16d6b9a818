"""How much the tests notice: one comparison, sum, number or condition of the program is changed at a time.

    python -m tests.mutants                  # twenty changes in each group
    python -m tests.mutants formulas 200     # a group, and how many of its changes, chosen evenly

Prints how many changes a test notices, and those that none does. Only the tests that concern the changed module run,
each time in a forked process (Linux and macOS). The law has `python -m tests.law.mutants`.
"""

from __future__ import annotations

import ast
import copy
import gc
import importlib
import json
import os
import re
import signal
import sys
import tempfile
import time
import types
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import drafted, shipped

TOP = Path(__file__).resolve().parent.parent
#: A change that makes the program run without end is noticed after so many seconds.
LONGEST = 600
#: A test that takes so many seconds and enters nothing of a module isn't run for its changes.
_SLOW = 1.0


@dataclass(frozen=True)
class Group:
    """Modules, and the tests that concern them; of `mentioning`, those files that name something of the module.

    Made beforehand, once for all changes, is that in which no module of the group has a part: the packs, and plans of the specs
    of `ready`.
    """

    modules: tuple[str, ...]
    tests: tuple[str, ...]
    mentioning: tuple[str, ...] = ()
    ready: tuple[str, ...] | None = ()


GROUPS = {
    "formulas": Group(("plangen/formulas/*.py",), (), ("tests/published", "tests/formulas"), None),
    "expressions": Group(
        ("plangen/packs/evaluate.py", "plangen/packs/functions.py", "plangen/packs/constants.py"),
        ("tests/packs/test_expression_values.py", "tests/packs/test_expressions.py"),
    ),
    "verdicts": Group(
        ("plangen/assess/*.py",),
        ("tests/published/test_ilac_g8_examples.py", "tests/published/test_jcgm_106_example.py", "tests/assess"),
        ready=("catamaran.yaml",),
    ),
    "derived": Group(
        ("plangen/assess/derived/*.py",),
        (
            "tests/assess/test_derived.py", "tests/assess/test_edges_of_figures.py", "tests/assess/test_accuracy.py", "tests/published/test_charge_efficiency_pages.py",
            "tests/published/test_magnetic_compass_handbook.py", "tests/published/test_naval_architecture_introduction.py",
            "tests/published/test_propeller_slip_examples.py", "tests/published/test_span_error_exercise.py",
            "tests/published/test_watermaker_owner_log.py", "tests/published/test_holland_marine_catalogue.py",
        ),
        ready=("catamaran.yaml",),
    ),
    "readings": Group(
        ("plangen/findings/parse_reading.py", "plangen/findings/days.py", "plangen/findings/units.py"),
        ("tests/findings/test_parse_reading.py", "tests/field/test_grammar.py", "tests/findings/test_other_units.py", "tests/assess/test_ages.py"),
    ),
    "collect": Group(
        (
            "plangen/collect/reconcile.py", "plangen/collect/form_content.py", "plangen/collect/list_lines.py",
            "plangen/collect/list_answers.py", "plangen/collect/collect.py", "plangen/findings/carry.py",
        ),
        (
            "tests/collect/test_reconcile.py", "tests/collect/test_form_content.py", "tests/collect/test_collect.py",
            "tests/collect/test_line_list.py", "tests/collect/test_retest_comes_back.py",
        ),
        ready=("catamaran.yaml", "monohull.yaml"),
    ),
    "expectations": Group(
        ("plangen/plan/expectations.py", "plangen/plan/format.py"),
        ("tests/plan/test_expectations.py", "tests/plan/test_basis.py"),
    ),
}  # fmt: skip

_COMPARED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_RECKONED = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult}
_OTHER_NAME = {"min": "max", "max": "min", "any": "all", "all": "any"}


def changes(tree: ast.Module) -> Iterator[tuple[str, int, int]]:
    """Yield what can be changed in a tree: in words, in which node, and which of its changes."""
    left_out = _passed_over(tree)
    for number, node in enumerate(ast.walk(tree)):
        if id(node) not in left_out:
            for step, words in enumerate(_changed(node)):
                yield f"{getattr(node, 'lineno', 0)}: {words}", number, step


def changed_tree(tree: ast.Module, number: int, step: int) -> ast.Module:
    """Return a tree with one thing changed."""
    other = copy.deepcopy(tree)
    node = next(one for place, one in enumerate(ast.walk(other)) if place == number)
    for _ in _changed(node, step):
        pass
    return ast.fix_missing_locations(other)


def _passed_over(tree: ast.Module) -> set[int]:
    """Return what says nothing of how values come about: annotations, decorators, defaults, messages, imports; nor can a class that is loaded be given other fields."""
    left: list[ast.AST] = []
    for node in ast.walk(tree):
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
            left += node.decorator_list
        if isinstance(node, ast.FunctionDef):
            left += [node.args, *([node.returns] if node.returns else [])]
        if isinstance(node, ast.ClassDef):
            left += [one for one in node.body if not isinstance(one, ast.FunctionDef)]
        if isinstance(node, ast.AnnAssign):
            left.append(node.annotation)
        if isinstance(node, (ast.Raise, ast.JoinedStr, ast.Assert)):
            left.append(node)
        if isinstance(node, ast.If) and getattr(node.test, "id", "") == "TYPE_CHECKING":
            left.append(node)
    return {id(inner) for node in left for inner in ast.walk(node)}


def _changed(node: ast.AST, wanted: int | None = None) -> Iterator[str]:
    """Yield what can be changed of a node; the wanted change is made, and the last that is told."""
    step = -1

    def is_now() -> bool:
        nonlocal step
        step += 1
        return step == wanted

    if isinstance(node, ast.Compare):
        for place, operator in enumerate(node.ops):
            if (other := _COMPARED.get(type(operator))) is not None:
                if now := is_now():
                    node.ops[place] = other()
                yield f"{type(operator).__name__} -> {other.__name__}"
                if now:
                    return
    elif isinstance(node, ast.BinOp) and (reckoned := _RECKONED.get(type(node.op))) is not None:
        before = type(node.op).__name__
        if is_now():
            node.op = reckoned()
        yield f"{before} -> {reckoned.__name__}"
    elif isinstance(node, ast.Constant) and type(node.value) in (int, float):
        value = node.value
        other_value = value + 1 if value == 0 or (isinstance(value, int) and value < 60) else value * 1.1
        if is_now():
            node.value = other_value
        yield f"{value} -> {other_value:g}"
    elif isinstance(node, ast.BoolOp):
        for place in range(len(node.values)):
            shown = ast.unparse(node.values[place])[:60]
            if now := is_now():
                node.values = node.values[:place] + node.values[place + 1 :]
            yield f"without {shown}"
            if now:
                return
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, (ast.Not, ast.USub)):
        name = type(node.op).__name__
        if is_now():
            node.op = ast.UAdd() if name == "USub" else node.op
            if name == "Not":
                node.operand = ast.UnaryOp(ast.Not(), node.operand)
        yield f"without {name}"
    elif isinstance(node, ast.Call) and getattr(node.func, "id", "") in _OTHER_NAME:
        assert isinstance(node.func, ast.Name)
        name = node.func.id
        if is_now():
            node.func.id = _OTHER_NAME[name]
        yield f"{name} -> {_OTHER_NAME[name]}"


def _codes(code: types.CodeType) -> Iterator[types.CodeType]:
    for inner in code.co_consts:
        if isinstance(inner, types.CodeType):
            yield inner
            yield from _codes(inner)


def _functions(tree: ast.Module) -> dict[int, str]:
    """Return in which function or method each node stands, by the name that its code has; none for values of the module."""
    found: dict[int, str] = {}

    def go(node: ast.AST, name: str, outer: str) -> None:
        found[id(node)] = name
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
            within = f"{outer}{node.name}"
            if isinstance(node, ast.FunctionDef):
                name, within = within, f"{within}.<locals>"
            outer = f"{within}."
        for inner in ast.iter_child_nodes(node):
            go(inner, name, outer)

    go(tree, "", "")
    return {number: found[id(node)] for number, node in enumerate(ast.walk(tree))}


def put_in(module: types.ModuleType, tree: ast.Module) -> None:
    """Give the functions of a loaded module, and the values of its names, what the changed tree says."""
    assert module.__file__ is not None
    changed = compile(tree, module.__file__, "exec", dont_inherit=True)
    new = {(code.co_qualname, code.co_firstlineno): code for code in _codes(changed)}
    for function in [one for one in gc.get_objects() if isinstance(one, types.FunctionType)]:
        if function.__code__.co_filename == module.__file__:
            code = new.get((function.__code__.co_qualname, function.__code__.co_firstlineno))
            if code is not None and len(code.co_freevars) == len(function.__code__.co_freevars):
                function.__code__ = code
    values: dict[str, Any] = {"__name__": module.__name__, "__file__": module.__file__}
    for statement in tree.body:
        if isinstance(statement, (ast.Assign, ast.AnnAssign)) and statement.value is not None:
            target = statement.targets[0] if isinstance(statement, ast.Assign) else statement.target
            if isinstance(target, ast.Name):
                _revalue(module, target.id, statement.value, values)


def _revalue(module: types.ModuleType, name: str, value: ast.expr, values: dict[str, Any]) -> None:
    old = getattr(module, name, None)
    try:
        now = eval(compile(ast.Expression(value), "changed", "eval"), {**vars(module), **values})
    except Exception:
        return
    if type(old) is not type(now) or old == now or callable(old):
        return
    for other in [one for one in sys.modules.values() if one is not None]:
        if getattr(other, name, None) is old:
            setattr(other, name, now)


class _Changes:
    """What runs the tests of one module for each of its changes, in a process of its own forked after they were collected."""

    def __init__(self, module: types.ModuleType, tree: ast.Module, tried: list[tuple[str, int, int]]) -> None:
        """Take the module, and what of it is changed."""
        self.module, self.tree, self.tried = module, tree, tried
        self.left: list[str] | None = None

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Run the tests as they are, then for each change until one fails: first the quickest that enter what is changed."""
        took = _told_by_a_fork(lambda: self._as_it_is(session))
        if took is None:
            return True
        self.left = []
        inside = _functions(self.tree)

        def concerned(item: pytest.Item) -> bool:
            seconds, entered = took[item.nodeid]
            return seconds < _SLOW or bool(entered)

        for words, number, step in self.tried:
            function = inside[number]

            def first(item: pytest.Item, function: str = function) -> tuple[bool, float]:
                seconds, entered = took[item.nodeid]
                return bool(function) and function not in entered, seconds

            items = sorted(filter(concerned, session.items), key=first)
            tree = changed_tree(self.tree, number, step)

            def passes(items: list[pytest.Item] = items, tree: ast.Module = tree) -> bool | None:
                put_in(self.module, tree)
                return all(_passes(session, items)) or None

            if _told_by_a_fork(passes) is not None:
                self.left.append(words)
        return True

    def _as_it_is(self, session: pytest.Session) -> dict[str, tuple[float, list[str]]] | None:
        """Return of each test how long it takes and what it enters of the module; None where one fails."""
        entered: set[str] = set()

        def called(frame: types.FrameType, event: str, _: object) -> None:
            if event == "call" and frame.f_code.co_filename == self.module.__file__:
                entered.add(frame.f_code.co_qualname)

        took: dict[str, tuple[float, list[str]]] = {}
        sys.setprofile(called)
        before = time.process_time()
        for item, passed in zip(session.items, _passes(session, session.items), strict=True):
            if not passed:
                return None
            now = time.process_time()
            took[item.nodeid] = now - before, sorted(entered)
            entered.clear()
            before = now
        return took


def _passes(session: pytest.Session, items: list[pytest.Item]) -> Iterator[bool]:
    """Run tests, and yield of each whether it passes."""
    for item, following in zip(items, [*items[1:], None], strict=True):
        failed = session.testsfailed
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        yield session.testsfailed == failed


def _told_by_a_fork(call: Callable[[], Any]) -> Any:
    """Return what a call gives in a process of its own, which keeps nothing; None where it fails or doesn't end."""
    with tempfile.TemporaryDirectory(prefix="plangen-mutants-") as own:
        told = Path(own) / "told"
        child = os.fork()
        if child == 0:
            try:
                signal.alarm(LONGEST)
                os.environ["PLANGEN_CACHE"] = own
                told.write_text(json.dumps(call()), "utf-8")
            finally:
                os._exit(0)
        os.waitpid(child, 0)
        return json.loads(told.read_text("utf-8")) if told.exists() and told.stat().st_size else None


def left_of(
    module: types.ModuleType,
    tree: ast.Module,
    tried: list[tuple[str, int, int]],
    tests: list[str],
) -> list[str] | None:
    """Return the changes that no test notices; None where the tests fail before anything is changed."""

    def collected() -> list[str] | None:
        silence = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silence, 1)
        os.dup2(silence, 2)
        signal.alarm(0)
        own = _Changes(module, tree, tried)
        pytest.main(
            ["-q", "-p", "no:cacheprovider", "--benchmark-disable", *dict.fromkeys(tests)], plugins=[own]
        )
        return own.left

    found: list[str] | None = _told_by_a_fork(collected)
    return found


def tests_of(group: Group, file: Path) -> list[str]:
    """Return the tests that concern a module: its own examples, those that are named for it, and its group's."""
    names = re.findall(r"^def ([a-z]\w+)", file.read_text("utf-8"), re.MULTILINE)
    word = re.compile(rf"\b({'|'.join([file.stem, *names])})\b")
    named = [
        str(path.relative_to(TOP))
        for folder in group.mentioning
        for path in sorted((TOP / folder).glob("test_*.py"))
        if word.search(path.read_text("utf-8"))
    ]
    own = [str(path.relative_to(TOP)) for path in sorted(TOP.glob(f"tests/**/test_{file.stem}.py"))]
    return [str(file.relative_to(TOP)), *own, *named, *group.tests]


def run(name: str, most: int) -> tuple[int, list[str]]:
    """Return how many changes of a group were tried, and those that no test notices."""
    group = GROUPS[name]
    files = [path for pattern in group.modules for path in sorted(TOP.glob(pattern))]
    if group.ready is not None:
        shipped()
        for spec in group.ready:
            drafted(spec)
    trees = {file: ast.parse(file.read_text("utf-8")) for file in files}
    every = [(file, *change) for file, tree in trees.items() for change in changes(tree)]
    tried = every[:: max(1, len(every) // most)]
    left: list[str] = []
    for file in dict.fromkeys(file for file, *_ in tried):
        parts = file.relative_to(TOP).with_suffix("").parts
        module = importlib.import_module(".".join(parts).removesuffix(".__init__"))
        tests = tests_of(group, file)
        found = left_of(module, trees[file], [change for own, *change in tried if own == file], tests)
        if found is None:
            raise SystemExit(f"{file.name}: its tests fail before anything is changed: {' '.join(tests)}")
        left += [f"{file.relative_to(TOP)}:{words}" for words in found]
    return len(tried), left


def main(names: list[str], most: int) -> None:
    os.chdir(TOP)
    for name in names:
        count, left = run(name, most)
        sys.stdout.write(f"{name}: {count - len(left)} of {count} noticed\n")
        sys.stdout.writelines(f"  {words}\n" for words in left)
        sys.stdout.flush()


if __name__ == "__main__":
    asked = [word for word in sys.argv[1:] if not word.isdigit()]
    numbers = [int(word) for word in sys.argv[1:] if word.isdigit()]
    main(asked or list(GROUPS), numbers[0] if numbers else 20)

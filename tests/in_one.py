"""Many small cases in one test, for setting a test up takes longer than each. All are gone through, and each one that
fails is named with what is wrong. A case that is skipped fails: none of them is left out without a word.
"""

import inspect
from collections.abc import Callable, Iterable, Sequence
from itertools import product
from typing import Any

import pytest

Check = Callable[..., None]
Given = dict[str, Any]
_made: dict[Check, tuple[Check, tuple[list[Given], ...]]] = {}
"""The check and the cases behind each test made here."""


def in_one(names: str | Sequence[str], cases: Iterable[Any]) -> Callable[[Check], Check]:
    """As `pytest.mark.parametrize`, but one test. Used twice on a check it goes through each with each. What else the
    check asks for are fixtures, each the same for all cases.
    """
    keys = [name.strip() for name in names.split(",")] if isinstance(names, str) else list(names)
    table = [dict(zip(keys, case if len(keys) > 1 else (case,), strict=True)) for case in cases]

    def made(check: Check) -> Check:
        inner, tables = _made.get(check, (check, ()))
        tables = (*tables, table)

        def test(**fixtures: Any) -> None:
            wrong = []
            for parts in product(*tables):
                given = {name: value for part in parts for name, value in part.items()}
                try:
                    inner(**fixtures, **given)
                except (Exception, pytest.fail.Exception, pytest.skip.Exception) as error:  # noqa: BLE001  # whatever it is, the others follow
                    wrong.append(f"{given}: {type(error).__name__}: {error}")
            assert not wrong, "\n\n".join((f"{len(wrong)} cases fail", *wrong))

        asked = inspect.signature(inner).parameters
        taken = {name for one in tables for given in one[:1] for name in given}
        rest = [parameter for name, parameter in asked.items() if name not in taken]
        test.__name__, test.__qualname__, test.__doc__ = inner.__name__, inner.__qualname__, inner.__doc__
        test.__module__ = inner.__module__
        test.__signature__ = inspect.Signature(rest)  # type: ignore[attr-defined]  # what pytest asks a test for
        _made[test] = inner, tables
        return test

    return made

"""Parts are laid out as soon as each is written, and none is left at work behind a fault."""

import time
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor

import pytest

from binder.rendering.parts.part import PartHtml, RenderedPdf
from binder.rendering.typeset import begun_parts, rendered


def parts(*names: str) -> Iterator[PartHtml]:
    yield from (PartHtml(name, (name,), f"<html>{name}</html>") for name in names)


def test_a_part_is_begun_before_the_next_is_written() -> None:
    begun: list[str] = []
    seen: list[list[str]] = []

    def written() -> Iterator[PartHtml]:
        for part in parts("one", "two"):
            seen.append(list(begun))
            yield part

    def submit(part: PartHtml) -> Future[RenderedPdf]:
        begun.append(part.name)
        return Future()

    begun_parts({"binder": written()}, submit, None)

    assert seen == [[], ["one"]]


def test_a_fault_in_writing_waits_for_what_was_begun() -> None:
    done: list[str] = []

    def written() -> Iterator[PartHtml]:
        yield from parts("one")
        time.sleep(0.1)
        raise ValueError("a fault of a template")

    def laid_out(part: PartHtml) -> RenderedPdf:
        time.sleep(0.3)
        done.append(part.name)
        return RenderedPdf(b"", 1)

    with ThreadPoolExecutor(1) as threads:
        with pytest.raises(ValueError, match="a fault of a template"):
            begun_parts({"binder": written()}, lambda part: threads.submit(laid_out, part), None)

        assert done == ["one"]


def test_a_group_is_given_as_soon_as_all_of_it_is_laid_out() -> None:
    futures: dict[str, Future[RenderedPdf]] = {name: Future() for name in ("one", "two", "three")}
    every = begun_parts(
        {"binder": parts("one", "two"), "ring": parts("three"), "desk": ()},
        lambda part: futures[part.name],
        None,
    )
    given = rendered(every, None)

    assert next(given) == ("desk", [])
    futures["three"].set_result(RenderedPdf(b"3", 1))
    assert [part.name for part in next(given)[1]] == ["three"]
    futures["one"].set_result(RenderedPdf(b"1", 1))
    futures["two"].set_result(RenderedPdf(b"2", 1))
    name, group = next(given)
    assert (name, [part.pdf.content for part in group]) == ("binder", [b"1", b"2"])
    assert list(given) == []

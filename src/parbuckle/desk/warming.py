"""Load what an answer needs before somebody asks, so that the first edit is answered as quickly as the next."""

from __future__ import annotations

from threading import Thread

from parbuckle.desk.answers_kept import Answers
from parbuckle.quantity.errors import ParbuckleError
from parbuckle.store.port import Store


def warm(store: Store, answers: Answers) -> Thread:
    """Load the compiled laws, or start the compiler; then work out the case that was changed last. All of it beside.

    Parameters
    ----------
    store : Store
        Where the cases are kept.
    answers : Answers
        Keeps the answer.

    Returns
    -------
    Thread
        It ends with the process.
    """
    thread = Thread(target=_first, args=(store, answers), name="first answer", daemon=True)
    thread.start()
    return thread


def _first(store: Store, answers: Answers) -> None:
    from parbuckle.physics.simulate import warm_up

    warm_up()
    for row in store.rows("case")[:1]:
        try:
            answers.of(row.id)
        except ParbuckleError:  # whoever opens the case is told
            return

"""What the app says of itself."""

from __future__ import annotations

from typing import Any

from parbuckle import __version__
from parbuckle.desk.answering import DRAWS, SEED


def about_app() -> dict[str, Any]:
    """Say which version it is, how its answers are worked out, and whether the compiler is still at work.

    Returns
    -------
    dict
        ``version``, ``draws``, ``seed``, ``compiled`` (``none``, ``working`` or ``ready``), ``languages``.
    """
    from parbuckle.physics.compiled import compiler_state

    return {
        "version": __version__,
        "draws": DRAWS,
        "seed": SEED,
        "compiled": compiler_state(),
        "languages": ["en"],
    }

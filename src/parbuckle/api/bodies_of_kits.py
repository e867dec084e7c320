"""What may be sent to the server about kits."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field

from parbuckle.api.bodies import Body, SeenBody


class NewKitBody(Body):
    """A new kit, as it was typed."""

    who: Annotated[str, Field(min_length=1, max_length=80, description="Who does it.")]
    document: dict[str, Any] = Field(description="The tree of a kit file.")


class TakeKitBody(SeenBody):
    """The kit that a case shall use."""

    kit: str | None = Field(max_length=40, description="Id of the kit; null for none.")

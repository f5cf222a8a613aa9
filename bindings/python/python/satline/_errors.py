"""What is refused."""

from __future__ import annotations

import json
from typing import Any


class SatlineError(ValueError):
    """A value that the library refuses, or that has no answer.

    `code` is the id of the kind of error, which stays when messages change, such as "unit-missing"; `input` is the keyword or the field
    of the request that it is about, None if it is about no particular one; `message` is a sentence for a person; `questions` ask whether
    another unit was meant.
    """

    code: str
    input: str | None
    message: str
    questions: list[dict[str, Any]]

    def __init__(self, code: str, input: str | None, message: str, as_json: str | None = None) -> None:
        super().__init__(message)
        self.code = code
        self.input = input
        self.message = message
        self.questions = [] if as_json is None else json.loads(as_json)["questions"]

    def __reduce__(self) -> tuple[Any, ...]:
        as_json = json.dumps({"questions": self.questions})
        return (SatlineError, (self.code, self.input, self.message, as_json))

"""A table of a document, and how all faults of it come out together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, Any, Self

from pydantic import (
    BaseModel,
    ConfigDict,
    ModelWrapValidatorHandler,
    TypeAdapter,
    ValidationError,
    model_validator,
)
from pydantic_core import InitErrorDetails, PydanticCustomError

from ozonewright.documents.typed import carried
from ozonewright.errors import AppError


class Given:
    """What stands in a table: fields written, and the values of those that could be read."""

    def __init__(self, written: Mapping[str, Any], readable: Mapping[str, Any]) -> None:
        self.written, self.readable = written, readable

    def __contains__(self, name: str) -> bool:
        return self.written.get(name) is not None

    def __getitem__(self, name: str) -> Any:
        """Return the value of a field, or None where it is empty or could not be read."""
        return self.readable.get(name)


class Section(BaseModel):
    """A table of a document: unknown keys are refused, nothing changes once read."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        """Yield what is missing beside, or at odds with, what is given."""
        yield from ()

    @model_validator(mode="wrap")
    @classmethod
    def _every_fault(cls, data: Any, handler: ModelWrapValidatorHandler[Self]) -> Self:
        """Look for contradictions even where single fields are wrong, and tell all at once."""
        try:
            section = handler(data)
        except ValidationError as error:
            if not isinstance(data, dict):
                raise
            given = Given(data, _readable(cls, data))
            raise _together(cls, error, cls.contradictions(given)) from None
        values = dict(section)
        faults = list(cls.contradictions(Given(values, values)))
        if faults:
            raise _together(cls, None, iter(faults))
        return section


def _readable(model: type[BaseModel], data: Mapping[str, Any]) -> dict[str, Any]:
    """Return the fields of a faulty table that can be read on their own."""
    values: dict[str, Any] = {}
    for name, field in model.model_fields.items():
        if name in data:
            # pydantic keeps the validators of a field apart from its type
            whole = Annotated[(field.annotation, *field.metadata)] if field.metadata else None
            try:
                values[name] = TypeAdapter(whole or field.annotation).validate_python(data[name])
            except ValidationError:
                continue
    return values


def _together(
    model: type[BaseModel], error: ValidationError | None, faults: Iterator[AppError]
) -> ValidationError:
    """Return one error for the faults of the fields and those between them."""
    details = [_again(dict(item)) for item in error.errors()] if error else []
    details += [InitErrorDetails(type=carried(fault), input=None) for fault in faults]
    return ValidationError.from_exception_data(model.__name__, details)


def _again(item: dict[str, Any]) -> InitErrorDetails:
    """Return a reported fault in the form from which it can be raised once more."""
    own = item.get("ctx", {}).get("error")
    if isinstance(own, AppError):
        kind: str | PydanticCustomError = carried(own)
    else:
        kind = item["type"]
    return InitErrorDetails(
        type=kind, loc=item["loc"], input=item.get("input"), ctx=item.get("ctx", {})
    )

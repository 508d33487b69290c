"""What a course file (course.toml) may hold, each value checked, every mistake named at once."""

from datetime import datetime
from pathlib import PurePath
from typing import Annotated, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator, model_validator

from walkaround.aircraft import toml_file
from walkaround.assessment.kept_paper import ENDING as PAPER_ENDING
from walkaround.assessment.question_file import NAME_FORM
from walkaround.exercises.sources import Source

FILE = "course.toml"
EACH_STUDENT: Final = "each student"
EACH_GROUP: Final = "each group"
ONE_FOR_ALL: Final = "one for all"
LAST: Final = "last"
BEST: Final = "best"
FIRST: Final = "first"
HOMEWORK: Final = "homework"
KEPT: Final = "kept"
DATE_EXAMPLE = "2026-11-30T18:00:00+01:00 (date, time, and hours ahead of UTC)"

Text = Annotated[str, Field(min_length=1, max_length=200)]


class CourseFileError(ValueError):
    """A course file that can't be used; `problems` has a line for each mistake: file, key, value, what is allowed."""

    def __init__(self, problems):
        self.problems = tuple(problems)
        super().__init__("\n".join(self.problems))


class Section(BaseModel):
    """Base of every section: an unknown key is an error, a value never changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def _aware(moment):
    if moment is not None and moment.tzinfo is None:
        raise ValueError(f"it is {moment}; allowed: with its time zone, as in {DATE_EXAMPLE}")
    return moment


class Late(Section):
    """How many days a late answer is accepted, and what share of its points it loses for each day begun.

    With `by_collection`, what was not there yet at a marking after the due date is late, whatever its own times say.
    """

    accepted_days: Annotated[float, Field(ge=0, le=3650, allow_inf_nan=False)] = 14
    loses_percent_per_day: Annotated[float, Field(ge=0, le=100, allow_inf_nan=False)] = 0
    by_collection: Annotated[bool, Field(strict=True)] = True


class SetExercise(Section):
    """One exercise of the course: what it counts, when it is due, whom it is for, and the course's own files for it.

    As homework it is marked while it is answered; kept, it is handed out without answers and marked by the course only.
    """

    name: str
    kind: Literal["homework", "kept"] = HOMEWORK
    points: Annotated[float, Field(gt=0, le=10000, allow_inf_nan=False)] | None = None
    due: datetime | None = None
    groups: list[Text] = []
    questions: str = ""
    aircraft: str = ""
    tolerance: dict[str, Annotated[float, Field(gt=0, allow_inf_nan=False)]] = {}

    @field_validator("name")
    @classmethod
    def _is_a_name(cls, name):
        if not NAME_FORM.fullmatch(name):
            raise ValueError(f"it is {name!r}; allowed: small letters, figures and _, a letter first")
        return name

    @field_validator("due")
    @classmethod
    def _due_is_aware(cls, due):
        return _aware(due)

    @field_validator("questions", "aircraft")
    @classmethod
    def _is_in_the_folder(cls, file):
        if file != PurePath(file).name or "\\" in file:
            raise ValueError(f"it is {file!r}; allowed: the name of a file in the course folder")
        return file

    @model_validator(mode="after")
    def _one_source(self):
        if self.questions and self.aircraft:
            raise ValueError("allowed: either questions or aircraft, not both")
        return self

    @property
    def paper_file(self):
        """Name of the file with a student's questions, empty where they are not handed out that way."""
        return f"{self.name}{PAPER_ENDING}" if self.kind == KEPT else ""

    @property
    def source(self):
        """Where its questions come from."""
        return Source(self.name, self.questions, self.aircraft, tuple(sorted(self.tolerance.items())))


class CourseFile(Section):
    """A whole course file."""

    name: Text
    secret: Annotated[str, Field(min_length=20, max_length=500)]
    starts: datetime | None = None
    due: datetime | None = None
    roster: Text = "roster.csv"
    roster_columns: dict[Literal["id", "name", "first name", "last name", "group", "mail"], Text] = {}
    hand_out: Literal["each student", "each group", "one for all"] = EACH_STUDENT
    tries: Annotated[int, Field(ge=1, le=100, strict=True)] = 3
    worked_answers_before_due: Annotated[bool, Field(strict=True)] = True
    tolerance_factor: Annotated[float, Field(gt=0, le=2, allow_inf_nan=False)] = 1.0
    units: Literal["US", "metric"] | None = None
    copies: Literal["last", "best", "first"] = LAST
    gradebook_delimiter: Literal[",", ";", "\t"] = ","
    late: Late = Late()
    exercises: Annotated[list[SetExercise], Field(min_length=1)]

    @field_validator("starts", "due")
    @classmethod
    def _dates_are_aware(cls, moment):
        return _aware(moment)

    @field_validator("exercises")
    @classmethod
    def _each_once(cls, exercises):
        names = [e.name for e in exercises]
        for name in names:
            if names.count(name) > 1:
                raise ValueError(f"{name!r} is in the list {names.count(name)} times; allowed: each exercise once")
        return exercises

    @model_validator(mode="after")
    def _kept_papers_have_an_owner(self):
        if self.hand_out == ONE_FOR_ALL and any(e.kind == KEPT for e in self.exercises):
            raise ValueError(
                f'hand_out = "{ONE_FOR_ALL}" can\'t have an exercise with kind = "{KEPT}": there are no keys'
            )
        return self


def read(folder):
    """Read the course file of a folder; raises CourseFileError naming every mistake."""
    if not (folder / FILE).exists():
        raise CourseFileError([f"there is no course in {folder}: no file {FILE}; name its folder, or begin one"])
    try:
        return CourseFile.model_validate(toml_file.content(folder / FILE))
    except toml_file.AircraftFileError as error:
        raise CourseFileError(error.problems) from None
    except ValidationError as error:
        raise CourseFileError([_line(e) for e in error.errors()]) from None


def _line(error):
    key = ""
    for part in error["loc"]:
        key += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if key else str(part)
    kind, value = error["type"], error["input"]
    if kind == "missing":
        return f"{FILE}: {key} is missing"
    if kind == "extra_forbidden":
        return f"{FILE}: {key} is not known here; check its spelling and the section it is in"
    if kind == "value_error":
        return f"{FILE}: {key}: {error['ctx']['error']}"
    wanted = error["msg"].removeprefix("Input should be ").removeprefix("a valid ").split(", unable")[0]
    if kind == "float_parsing":
        wanted += ", with a decimal point and no quotes"
    elif kind.startswith("datetime"):
        wanted = DATE_EXAMPLE
    if key == "secret":  # never shown, not even in a message
        return f"{FILE}: secret: allowed: a text of 20 letters and figures or more"
    text = repr(value)
    return f"{FILE}: {key} is {text if len(text) <= 60 else text[:57] + '…'}; allowed: {wanted}"

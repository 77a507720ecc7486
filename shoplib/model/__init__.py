"""What a model is: inputs declared once, results declared once, and four uses of one formula.

A model is a frozen dataclass. Each input is declared with its words, symbol, range, step and the
tolerance that a careful person holds. Each result is a property whose body is the plain expression
of the inputs. The body never runs on the model itself but on a stand-in (`Plain`) whose fields
are floats (mm, rad), arrays, Quantities or symbols, so that one body gives

1. the number: `jig.outer_pivot`, a Quantity; `jig.plain.outer_pivot`, the float in mm;
2. the working for the class: `jig.working("outer_pivot")`;
3. the error budget: `jig.budget("outer_pivot")`;
4. the other way round: `jig.find("diameter", outer_pivot="226 mm")`.
"""

from shoplib.model.facts import Cautions, Facts
from shoplib.model.inputs import (
    REQUIRED,
    Input,
    angle,
    choice,
    count,
    flag,
    force,
    length,
    mass,
    percent,
    stress,
    surface,
)
from shoplib.model.missing import MissingError, needing
from shoplib.model.models import Model, answer, answer_in_full, given_in_full, known, model, summary
from shoplib.model.offers import Offer
from shoplib.model.results import FOUND, SET, Result, result, under_headings
from shoplib.model.sentences import Caution, ShapeError, Told, capital, headed
from shoplib.model.stand_in import Plain
from shoplib.model.twins import inch_twin
from shoplib.model.writing import (
    FINE,
    LENGTH_STEPS,
    decimal,
    finely,
    in_full,
    length_in_full,
    public,
    write_finely,
    write_value,
)

__all__ = [
    "FINE", "FOUND", "LENGTH_STEPS", "REQUIRED", "SET", "Caution", "Cautions", "Facts", "Input", "MissingError",
    "Model", "Offer", "Plain", "Result", "ShapeError", "Told", "angle", "answer", "answer_in_full", "capital",
    "choice", "count", "decimal", "finely", "flag", "force", "given_in_full", "headed", "in_full", "inch_twin",
    "known", "length", "length_in_full", "mass", "model", "needing", "percent", "public", "result", "stress",
    "summary", "surface", "under_headings", "write_finely", "write_value",
]

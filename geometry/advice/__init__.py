"""**Advice**: what is worth measuring next. It looks at a job and its layout from above; no stage stands on it."""

from geometry.advice.next_reading import Advice, Advised, advise

__all__ = ["Advice", "Advised", "advise"]

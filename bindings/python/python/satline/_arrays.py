"""What comes as an array, made one that the native half reads; imported when the first one comes."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray


def contiguous(keyword: str, value: Any) -> NDArray[np.float64]:
    """`value` as 64-bit floats in C order, NaN where it is masked. Text is no number here either, nor is a truth value."""
    array = np.asanyarray(value)
    if array.dtype.kind not in "iuf":
        raise TypeError(f"{keyword} takes an array of numbers, not of {array.dtype}")
    if isinstance(array, np.ma.MaskedArray):
        array = np.ma.filled(array.astype(np.float64), np.nan)
    return np.ascontiguousarray(array, dtype=np.float64)

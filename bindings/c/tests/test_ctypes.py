"""The shared library called from Python by ctypes, against the pages of the Rust example and the cases of satline-json.

SATLINE_C names the library; `bindings/c/check` sets it.
"""

import ctypes
import json
import math
import os
import pathlib
import threading
import unittest

ROOT = pathlib.Path(__file__).parents[3]
CASES = ROOT / "bindings/json/tests"
ANSWERED, REFUSED, BAD_ARRAY = 0, 1, 4

satline = ctypes.CDLL(os.environ["SATLINE_C"])
for name in ["code", "input", "message", "json"]:
    function = getattr(satline, f"satline_error_{name}")
    function.argtypes, function.restype = [ctypes.c_void_p], ctypes.c_char_p
for name in ["error_free", "text_free", "session_free"]:
    function = getattr(satline, f"satline_{name}")
    function.argtypes, function.restype = [ctypes.c_void_p], None
satline.satline_session_new.restype = ctypes.c_void_p
DOUBLES = ctypes.POINTER(ctypes.c_double)
satline.satline_superheats.argtypes = [
    ctypes.c_uint32, DOUBLES, DOUBLES, ctypes.c_size_t, DOUBLES, DOUBLES, ctypes.c_size_t,
    ctypes.POINTER(ctypes.c_size_t), ctypes.c_void_p,
]


class Refused(Exception):
    def __init__(self, status, error):
        self.status = status
        self.json = json.loads(satline.satline_error_json(error))
        self.code = satline.satline_error_code(error).decode()
        given = satline.satline_error_input(error)
        self.input = None if given is None else given.decode()
        super().__init__(satline.satline_error_message(error).decode())


def text(function, *arguments):
    """The text that a function answers; it and the error are freed."""
    answer, error = ctypes.c_void_p(), ctypes.c_void_p()
    status = function(*arguments, ctypes.byref(answer), ctypes.byref(error))
    try:
        if status != ANSWERED:
            raise Refused(status, error)
        return ctypes.string_at(answer).decode()
    finally:
        satline.satline_text_free(answer)
        satline.satline_error_free(error)


class Session:
    def __enter__(self):
        self.handle = ctypes.c_void_p(satline.satline_session_new())
        return self

    def __exit__(self, *_):
        satline.satline_session_free(self.handle)

    def report(self, request):
        return text(satline.satline_session_report, self.handle, request.encode())


class Test(unittest.TestCase):
    def test_reports_are_those_of_the_example_byte_for_byte(self):
        with Session() as session:
            for name in ["demo", "low_side", "at_rest", "r744", "own"]:
                request = (CASES / f"requests/{name}.json").read_text(encoding="utf-8")
                printed = (ROOT / f"examples/read_gauges/{name}.json").read_text(encoding="utf-8")
                self.assertTrue(session.report(request) == printed, f"{name} differs")

    def test_refusals_have_code_and_input(self):
        refusals = json.loads((CASES / "refusals.json").read_text(encoding="utf-8"))
        self.assertGreaterEqual(len(refusals), 44, "cases were lost")
        with Session() as session:
            for case in refusals:
                request = case["request"] if isinstance(case["request"], str) else json.dumps(case["request"])
                with self.assertRaises(Refused, msg=request) as raised:
                    session.report(request)
                error = raised.exception
                self.assertEqual((error.status, error.code, error.input), (REFUSED, case["code"], case["input"]))
                self.assertEqual((error.json["code"], error.json["message"]), (error.code, str(error)))

    def test_properties_are_those_of_rust(self):
        kept = json.loads((CASES / "properties.json").read_text(encoding="utf-8"))
        self.assertGreaterEqual(len(kept), 8, "cases were lost")
        for case in kept:
            answer = text(satline.satline_properties, json.dumps(case["question"]).encode())
            self.assertEqual(json.loads(answer), case["answer"])

    def test_a_refrigerant_is_its_place_in_the_names(self):
        for place, name in enumerate(json.loads(text(satline.satline_names))["refrigerants"]):
            found = ctypes.c_uint32()
            self.assertEqual(satline.satline_refrigerant(name.encode(), ctypes.byref(found), None), ANSWERED)
            self.assertEqual(found.value, place)

    def test_columns_answer_or_say_nan(self):
        rows = (ctypes.c_double * 3)
        gauge, line, superheat = rows(2e5, math.nan, 5e6), rows(285.0, 285.0, 285.0), rows()
        air, answered = (ctypes.c_double * 1)(101325.0), ctypes.c_size_t()
        status = satline.satline_superheats(0, gauge, air, 1, line, superheat, 3, ctypes.byref(answered), None)
        self.assertEqual((status, answered.value), (ANSWERED, 1))
        self.assertTrue(superheat[0] > 0.0 and math.isnan(superheat[1]) and math.isnan(superheat[2]))
        status = satline.satline_superheats(0, gauge, air, 1, line, line, 3, ctypes.byref(answered), None)
        self.assertEqual((status, answered.value), (BAD_ARRAY, 0))

    def test_threads_share_a_session(self):
        request = (CASES / "requests/demo.json").read_text(encoding="utf-8")
        with Session() as session:
            first = session.report(request)
            answers = []
            threads = [threading.Thread(target=lambda: answers.append(session.report(request))) for _ in range(4)]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join()
            self.assertEqual(answers, [first] * 4)


if __name__ == "__main__":
    unittest.main()

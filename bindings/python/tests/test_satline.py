"""The installed package against the pages of the Rust example, the cases of satline-json, and itself: arrays against single values."""

import ast
import copy
import doctest
import inspect
import itertools
import json
import math
import os
import pathlib
import pickle
import re
import subprocess
import sys
import threading
import tracemalloc
import unittest

try:
    import numpy as np
except ImportError:
    np = None

import satline
from satline import Refrigerant, SatlineError, Session

ROOT = pathlib.Path(__file__).parents[3]
CASES = ROOT / "bindings/json/tests"
R134A, R1234YF, R407C = Refrigerant("R-134a"), Refrigerant("R-1234yf"), Refrigerant("R-407C")
METHODS = [name for name in dir(Refrigerant) if name.startswith(("dew_", "bubble_", "superheat_", "subcooling_"))]


def read(path):
    return path.read_text(encoding="utf-8")


def request(name):
    return read(CASES / f"requests/{name}.json")


class Diagnosis(unittest.TestCase):
    def test_reports_are_those_of_the_example_byte_for_byte(self):
        session = Session()
        for name in ["demo", "low_side", "at_rest", "r744", "own"]:
            printed = read(ROOT / f"examples/read_gauges/{name}.json")
            self.assertTrue(session.report_json(request(name)) == printed, f"{name} differs")
            self.assertEqual(session.report(json.loads(request(name))), json.loads(printed))

    def test_refusals_have_code_and_input(self):
        refusals = json.loads(read(CASES / "refusals.json"))
        self.assertGreaterEqual(len(refusals), 44, "cases were lost")
        session = Session()
        for case in refusals:
            with self.assertRaises(SatlineError, msg=case["request"]) as raised:
                session.report(case["request"])
            error = raised.exception
            self.assertEqual((error.code, error.input), (case["code"], case["input"]))
            self.assertTrue(error.message and error.message == str(error))

    def test_a_suspected_unit_becomes_a_question(self):
        slip = {"refrigerant": "R-134a", "values": {"low-side": "220 psi"}, "ambient": "30 °C"}
        with self.assertRaises(SatlineError) as raised:
            Session().report(slip)
        self.assertEqual(raised.exception.questions[0]["instead"], "220 kPa")
        again = pickle.loads(pickle.dumps(raised.exception))
        self.assertEqual(vars(again), vars(raised.exception))
        self.assertEqual(str(again), str(raised.exception))

    def test_a_page_has_its_cautions_in_both_languages(self):
        session = Session()
        for language, caution in [("english", "goggles and gloves"), ("spanish", "guantes")]:
            page = session.page(json.loads(request("demo")), language=language)
            self.assertIn(caution, page)
            self.assertLess(len(page), len(session.page(request("demo"), language=language, whole=True)))
        self.assertRaises(SatlineError, session.page, request("demo"), language="german")

    def test_threads_share_a_session(self):
        session = Session()
        answers = []
        threads = [threading.Thread(target=lambda: answers.append(session.report_json(request("demo")))) for _ in range(4)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        self.assertEqual(answers, [read(ROOT / "examples/read_gauges/demo.json")] * 4)

    def test_names_are_offered(self):
        names = satline.names()
        self.assertIn("R-1234yf", names["refrigerants"])
        self.assertIn("bubbles", names["observations"])
        self.assertEqual([Refrigerant(name).designation for name in names["refrigerants"]], names["refrigerants"])


class OneValue(unittest.TestCase):
    def test_properties_are_those_of_rust(self):
        kept = json.loads(read(CASES / "properties.json"))
        self.assertGreaterEqual(len(kept), 8, "cases were lost")
        si = {"gauge": "gauge_pa", "absolute": "absolute_pa", "temperature": "temperature_k"}
        methods = {
            "bubble_temperature_k": "bubble_temperature_k",
            "dew_temperature_k": "dew_temperature_k",
            "bubble_pressure_pa": "bubble_absolute_pa",
            "dew_pressure_pa": "dew_absolute_pa",
            "superheat_k": "superheat_k",
            "subcooling_k": "subcooling_k",
        }
        compared = 0
        for case in kept:
            question = case["question"]
            refrigerant = Refrigerant(question.pop("refrigerant"))
            given = {name if isinstance(value, str) else si[name]: value for name, value in question.items()}
            for name, value in case["answer"].items():
                if name in methods:
                    taken = {n: v for n, v in given.items() if "heat" in name or "cool" in name or not n.startswith("temperature") or len(given) == 1}
                    self.assertEqual(getattr(refrigerant, methods[name])(**taken), value, (question, name))
                    compared += 1
        self.assertEqual(compared, 20)

    def test_units_are_those_of_the_names(self):
        pa = {"pa": 1.0, "kpa": 1e3, "bar": 1e5, "psi": 0.45359237 * 9.80665 / 0.0254**2}
        for side in ["dew", "bubble"]:
            absolute = getattr(R407C, f"{side}_absolute_pa")(temperature_c=30.0)
            gauge = getattr(R407C, f"{side}_gauge_pa")(temperature_c=30.0, altitude="0 m")
            self.assertAlmostEqual(absolute - gauge, 101325.0, 6)
            for unit, factor in pa.items():
                # rounding, relative: 1e-14
                self.assertAlmostEqual(getattr(R407C, f"{side}_absolute_{unit}")(temperature_c=30.0) * factor / absolute, 1.0, 14)
                self.assertAlmostEqual(getattr(R407C, f"{side}_gauge_{unit}")(temperature_c=30.0) * factor / gauge, 1.0, 14)
                kelvin = getattr(R407C, f"{side}_temperature_k")(**{f"absolute_{unit}": absolute / factor})
                self.assertAlmostEqual(kelvin, 303.15, 8)
                kelvin = getattr(R407C, f"{side}_temperature_k")(**{f"gauge_{unit}": gauge / factor})
                self.assertAlmostEqual(kelvin, 303.15, 8)
            self.assertAlmostEqual(getattr(R407C, f"{side}_temperature_c")(absolute_pa=absolute), 30.0, 8)
            self.assertAlmostEqual(getattr(R407C, f"{side}_temperature_f")(absolute_pa=absolute), 86.0, 8)
        for temperature in [{"temperature_k": 282.15}, {"temperature_c": 9.0}, {"temperature_f": 48.2}, {"temperature": "9 °C"}]:
            self.assertAlmostEqual(R134A.superheat_k(gauge="220 kPa", **temperature), 6.4067, 4)
            self.assertAlmostEqual(R134A.superheat_f(gauge="220 kPa", **temperature) / 1.8, R134A.superheat_k(gauge="220 kPa", **temperature), 12)
            self.assertAlmostEqual(R134A.subcooling_f(gauge_bar=12.0, **temperature) / 1.8, R134A.subcooling_k(gauge_bar=12.0, **temperature), 12)

    def test_the_air_belongs_to_a_gauge_pressure(self):
        at_sea = R134A.superheat_k(gauge_psi=30.0, temperature_c=8.0)
        for same in [{"altitude_m": 0.0}, {"altitude_ft": 0}, {"altitude": "0 m"}, {"barometer_pa": 101325.0}, {"barometer_hpa": 1013.25}, {"barometer_kpa": 101.325}, {"barometer": "1013.25 hPa"}]:
            self.assertEqual(R134A.superheat_k(gauge_psi=30.0, temperature_c=8.0, **same), at_sea)
        self.assertAlmostEqual(R134A.superheat_k(gauge_psi=30.0, temperature_c=8.0, barometer_inhg=29.9213), at_sea, 4)
        # less air pressure, a lower dew point: 3.55 kPa at 0.09 K/kPa
        on_hill = R134A.superheat_k(gauge_psi=30.0, temperature_c=8.0, altitude_m=300)
        self.assertAlmostEqual(on_hill - at_sea, 0.32, 2)
        self.assertAlmostEqual(R134A.superheat_k(gauge_psi=30.0, temperature_c=8.0, altitude_ft=300 / 0.3048), on_hill, 12)

    def test_what_is_refused_names_its_keyword(self):
        for method, given, code, keyword in [
            ("dew_temperature_c", {"gauge": "32"}, "unit-missing", "gauge"),
            ("dew_temperature_c", {"gauge": "32 psia"}, "wrong-reference", "gauge"),
            ("dew_temperature_c", {"absolute": "60 bar"}, "supercritical", "absolute"),
            ("dew_temperature_c", {"absolute_bar": 60}, "supercritical", "absolute_bar"),
            ("dew_temperature_c", {"absolute_bar": math.nan}, "out-of-range", "absolute_bar"),
            ("dew_temperature_c", {"gauge_psi": -30.0}, "below-vacuum", "gauge_psi"),
            ("dew_temperature_c", {"gauge_psi": 30.0, "altitude_m": 99999.0}, "implausible", "altitude_m"),
            ("dew_gauge_psi", {"temperature_c": 30.0, "barometer_hpa": 1.0}, "implausible", "barometer_hpa"),
            ("dew_absolute_kpa", {"temperature_f": 300.0}, "above-critical-temperature", "temperature_f"),
            ("superheat_k", {"gauge_psi": 30.0, "temperature_k": -1.0}, "impossible", "temperature_k"),
            ("superheat_k", {"absolute_bar": 60.0, "temperature_c": 60.0}, "supercritical", "absolute_bar"),
        ]:
            with self.assertRaises(SatlineError, msg=given) as raised:
                getattr(R134A, method)(**given)
            self.assertEqual((raised.exception.code, raised.exception.input), (code, keyword), str(raised.exception))
        with self.assertRaises(ValueError) as raised:
            Refrigerant("R-13")
        self.assertEqual((raised.exception.code, raised.exception.input), ("unknown-refrigerant", "name"))

    def test_a_call_that_could_mean_two_things_is_no_call(self):
        for method, given, message in [
            ("dew_temperature_c", {}, "a pressure is missing"),
            ("superheat_k", {"gauge_psi": 30.0}, "a temperature is missing"),
            ("dew_temperature_c", {"gauge_psi": 30.0, "absolute_psi": 30.0}, "not both"),
            ("dew_temperature_c", {"gauge_psi": 30.0, "gauge": "30 psi"}, "not both"),
            ("dew_temperature_c", {"gauge_psi": 30.0, "altitude_m": 1.0, "barometer_pa": 1e5}, "not both"),
            ("dew_temperature_c", {"absolute_psi": 30.0, "altitude_m": 300.0}, "belongs to a gauge pressure"),
            ("dew_temperature_c", {"temperature_c": 30.0}, "unexpected keyword"),
            ("dew_temperature_c", {"pressure_psi": 30.0}, "unexpected keyword"),
            ("dew_temperature_c", {"gauge_c": 30.0}, "unexpected keyword"),
            ("dew_temperature_c", {"absolute_hpa": 30.0}, "unexpected keyword"),
            ("dew_absolute_pa", {"temperature_c": 30.0, "altitude_m": 300.0}, "unexpected keyword"),
            ("dew_temperature_c", {"gauge": 30.0}, "takes text"),
            ("dew_temperature_c", {"gauge_psi": "30"}, "takes a number"),
            ("dew_temperature_c", {"gauge_psi": True}, "truth value"),
            ("dew_temperature_c", {"gauge_psi": None}, "a pressure is missing"),
        ]:
            with self.assertRaisesRegex(TypeError, message, msg=given):
                getattr(R134A, method)(**given)
        self.assertRaises(TypeError, R134A.dew_temperature_c, 30.0)

    def test_a_refrigerant_is_a_value(self):
        self.assertEqual(Refrigerant("r134a"), R134A)
        self.assertNotEqual(R134A, R1234YF)
        self.assertEqual(len({R134A, Refrigerant("HFC-134a"), R1234YF}), 2)
        self.assertEqual((str(R134A), repr(R134A)), ("R-134a", 'Refrigerant("R-134a")'))
        self.assertEqual([pickle.loads(pickle.dumps(R407C)), copy.deepcopy(R407C)], [R407C, R407C])
        self.assertTrue(R407C.is_blend and not R134A.is_blend)
        with self.assertRaises(AttributeError):
            R134A.designation = "R-12"


@unittest.skipIf(np is None, "numpy is missing")
class Arrays(unittest.TestCase):
    # from below vacuum to above the critical pressure, more than are converted together
    GAUGE = None if np is None else np.concatenate([[np.nan, np.inf, -np.inf, 0.0], np.linspace(-2e5, 7e6, 1000)])

    def column(self, method):
        """The keywords of a method with an array each, over its range and beyond."""
        rows = len(self.GAUGE)
        air, line = np.linspace(-600.0, 6100.0, rows), np.linspace(-10.0, 500.0, rows)
        if "temperature" in method:
            return {"gauge_pa": self.GAUGE, "altitude_m": air}
        if "absolute" in method:
            return {"temperature_k": line}
        if "gauge" in method:
            return {"temperature_k": line, "altitude_m": air}
        return {"gauge_pa": self.GAUGE, "temperature_k": line, "altitude_m": air}

    def one(self, refrigerant, method, given):
        try:
            return getattr(refrigerant, method)(**given)
        except SatlineError:
            return math.nan

    def test_each_is_bit_for_bit_that_of_one_value(self):
        self.assertEqual(len(METHODS), 26)
        for refrigerant, method, absolute in itertools.product([R134A, R407C], METHODS, [False, True]):
            given = self.column(method)
            if absolute and "gauge_pa" in given:
                given["absolute_kpa"] = given.pop("gauge_pa") / 1e3
                del given["altitude_m"]
            each = getattr(refrigerant, method)(**given)
            ones = [self.one(refrigerant, method, dict(zip(given, row))) for row in zip(*given.values())]
            np.testing.assert_array_equal(each, ones, err_msg=method)
            self.assertTrue(100 < np.isfinite(each).sum() < len(each), method)

    def test_one_value_stands_for_all(self):
        gauge = np.array([2e5, np.nan, 9e6])
        expected = [R134A.superheat_k(gauge_pa=2e5, temperature="9 °C", altitude="300 m"), np.nan, np.nan]
        each = R134A.superheat_k(gauge_pa=gauge, temperature="9 °C", altitude="300 m")
        np.testing.assert_array_equal(each, expected)
        # one pressure, two temperatures
        each = R134A.superheat_f(absolute="3 bar", temperature_f=np.array([40.0, 50.0]))
        self.assertAlmostEqual(each[1] - each[0], 10.0, 9)
        with self.assertRaises(SatlineError):
            R134A.superheat_k(gauge_pa=gauge, temperature_c=9.0, altitude_m=99999.0)

    def test_shape_and_kind_of_number_do_not_matter(self):
        gauge = np.linspace(1e5, 2e6, 24).round()
        flat = R134A.dew_temperature_k(gauge_pa=gauge)
        for same in [
            gauge.tolist(),
            tuple(gauge),
            gauge.astype("float32"),
            gauge.astype("int64"),
            gauge.astype(">f8"),
            np.repeat(gauge, 2)[::2],
            gauge[::-1][::-1],
            np.ma.array(gauge),
        ]:
            each = R134A.dew_temperature_k(gauge_pa=same)
            self.assertEqual((type(each), each.dtype), (np.ndarray, np.float64))
            np.testing.assert_array_equal(each, flat)
        for shape in [(24,), (4, 6), (2, 3, 4), (24, 1)]:
            square = gauge.reshape(shape)
            for order in [square, np.asfortranarray(square)]:
                np.testing.assert_array_equal(R134A.dew_temperature_k(gauge_pa=order), flat.reshape(shape))
        self.assertEqual(R134A.dew_temperature_k(gauge_pa=np.empty((0, 3))).shape, (0, 3))
        for number in [np.float64(2e5), np.float32(2e5), np.int64(200000), np.array(2e5), 200000]:
            one = R134A.dew_temperature_k(gauge_pa=number)
            self.assertEqual((type(one), one), (float, R134A.dew_temperature_k(gauge_pa=2e5)))
        with self.assertRaisesRegex(ValueError, r"shape \[2\]"):
            R134A.superheat_k(gauge_pa=[2e5, 3e5, 4e5], temperature_c=[9.0, 9.0])
        for no_numbers in [["200000"], [True], [None], [1j], [[1.0], [1.0, 2.0]], np.array(["2026-11-30"], dtype="datetime64[s]")]:
            self.assertRaises((TypeError, ValueError), R134A.dew_temperature_k, gauge_pa=no_numbers)

    def test_a_masked_element_was_not_read(self):
        for kind in ["float64", "float32"]:
            gauge = np.ma.array([2e5, 3e5, 4e5], mask=[False, True, False], dtype=kind)
            each = R134A.dew_temperature_k(gauge_pa=gauge)
            self.assertEqual((type(each), np.isnan(each).tolist()), (np.ndarray, [False, True, False]))

    def test_an_array_is_neither_copied_nor_changed(self):
        # 8 MB; numpy counts its memory in tracemalloc
        gauge = np.linspace(1e5, 2e6, 1_000_000)
        kept = gauge.copy()
        gauge.flags.writeable = False
        R134A.dew_temperature_c(gauge_pa=gauge[:2])

        def most_bytes(array):
            tracemalloc.start()
            R134A.dew_temperature_c(gauge_pa=array)
            most = tracemalloc.get_traced_memory()[1]
            tracemalloc.stop()
            return most

        # the answers alone, and a few kB
        self.assertLess(most_bytes(gauge), gauge.nbytes + 100_000)
        # what is converted is copied, so that the measurement sees it
        self.assertGreater(most_bytes(gauge[::2]), gauge.nbytes - 100_000)
        np.testing.assert_array_equal(gauge, kept)

    def test_without_numpy_single_values_are_answered(self):
        code = (
            "import sys; sys.modules['numpy'] = None\n"
            "from satline import Refrigerant\n"
            "r = Refrigerant('R-134a')\n"
            "print(r.dew_temperature_c(gauge_psi=30.0))\n"
            "try: r.dew_temperature_c(gauge_psi=[30.0])\n"
            "except ImportError: print('no numpy')\n"
        )
        printed = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout
        self.assertEqual(printed.split("\n"), [str(R134A.dew_temperature_c(gauge_psi=30.0)), "no numpy", ""])

    def test_the_example_prints_its_page(self):
        examples = pathlib.Path(__file__).parents[1] / "examples"
        page = examples / "a_lesson_on_superheat.txt"
        program = [sys.executable, examples / "a_lesson_on_superheat.py"]
        printed = subprocess.run(program, check=True, capture_output=True, env={**os.environ, "PYTHONUTF8": "1"}).stdout
        if "SATLINE_UPDATE" in os.environ:
            page.write_bytes(printed)
        self.assertEqual(printed.decode(), read(page), "run the tests once with SATLINE_UPDATE=1 if the change is meant")


class Package(unittest.TestCase):
    def test_the_stubs_have_every_method_and_keyword(self):
        stubs = pathlib.Path(satline.__file__).with_name("_native.pyi")
        classes = {node.name: node for node in ast.parse(read(stubs)).body if isinstance(node, ast.ClassDef)}

        def keywords(name):
            inherited = [re.match(r"_\w+", ast.unparse(base)) for base in classes[name].bases]
            own = {node.target.id for node in classes[name].body if isinstance(node, ast.AnnAssign)}
            return own.union(*(keywords(base.group()) for base in inherited if base))

        named = {}
        for node in classes["Refrigerant"].body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                given = node.args.kwarg and re.search(r"_\w+", ast.unparse(node.args.kwarg.annotation)).group()
                named.setdefault(node.name, []).append(given)
        self.assertEqual(set(named), {name for name in dir(Refrigerant) if not name.startswith("_")})
        for method in METHODS:
            taken = set(inspect.signature(getattr(Refrigerant, method)).parameters) - {"self"}
            self.assertEqual([keywords(given) for given in named[method]], [taken, taken], method)
        self.assertTrue(stubs.with_name("py.typed").exists())

    def test_every_docstring_says_its_unit(self):
        units = {"k": "K", "c": "°C", "f": "°F", "pa": "Pa", "kpa": "kPa", "bar": "bar", "psi": "psi"}
        for method in METHODS:
            first = inspect.getdoc(getattr(Refrigerant, method)).split("\n")[0]
            quantity, unit = method.rsplit("_", 1)
            self.assertRegex(first, rf"(, |in ){units[unit]}[.:]", method)
            side = quantity.split("_")[0]
            words = {"dew": "dew", "bubble": "bubble", "superheat": "superheat", "subcooling": "subcooling"}[side]
            self.assertIn(words, first.lower())
            self.assertEqual("absolute" in quantity, "Absolute" in first)
            self.assertEqual("gauge" in quantity, "above that of the surrounding air" in first)

    def test_the_docstring_of_the_package_is_so(self):
        self.assertEqual(doctest.testmod(satline), doctest.TestResults(0, 4))

    @unittest.skipIf(np is None, "numpy is missing")
    def test_the_code_of_the_readme_is_so(self):
        readme = pathlib.Path(__file__).parents[1] / "README.md"
        blocks = re.findall(r"```python\n(.*?)```", read(readme), re.DOTALL)
        self.assertGreaterEqual(len(blocks), 2)
        names = {}
        for block in blocks:
            test = doctest.DocTestParser().get_doctest(block, names, "README.md", str(readme), 0)
            self.assertGreater(len(test.examples), 0)
            runner = doctest.DocTestRunner()
            self.assertEqual(runner.run(test, clear_globs=False).failed, 0)
            names = test.globs

    def test_the_version_is_that_of_the_library(self):
        version = re.search(r'^version = "(.*)"', read(ROOT / "Cargo.toml"), re.MULTILINE).group(1)
        self.assertEqual(satline.__version__, version)


if __name__ == "__main__":
    unittest.main()

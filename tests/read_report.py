"""Reads a JSON report from standard input, holds it to the JSON Schema given as argument, and says what it found.

Standard library only. The part of JSON Schema (2020-12) that the schemas use is checked: $ref, type, const, enum, properties,
required, additionalProperties, items, prefixItems, minimum, maximum, anyOf, oneOf. A keyword not known here is an error, so that
nothing passes unread.
"""

import json
import sys

TYPES = {"object": dict, "array": list, "string": str, "boolean": bool, "null": type(None)}
WORDS = {"$schema", "$defs", "$ref", "title", "description", "type", "const", "enum", "properties", "required", "default",
         "additionalProperties", "items", "prefixItems", "minItems", "maxItems", "minimum", "maximum", "format", "anyOf", "oneOf"}


def fits(kind, value):
    if kind in ("number", "integer"):
        number = isinstance(value, (int, float)) and not isinstance(value, bool)
        return number and (kind == "number" or value == int(value))
    return isinstance(value, TYPES[kind])


def check(schema, value, root, at="report"):
    """What is wrong with value, as sentences."""
    if schema is True:
        return []
    if schema is False:
        return [f"{at}: nothing may stand here"]
    unknown = set(schema) - WORDS
    assert not unknown, f"keywords not known here: {unknown}"
    if "$ref" in schema:
        return check(root["$defs"][schema["$ref"].rsplit("/", 1)[1]], value, root, at)
    wrong = []
    kinds = schema.get("type", [])
    kinds = [kinds] if isinstance(kinds, str) else kinds
    if kinds and not any(fits(kind, value) for kind in kinds):
        return [f"{at}: {value!r} is no {' or '.join(kinds)}"]
    if "const" in schema and value != schema["const"]:
        wrong.append(f"{at}: {value!r} is not {schema['const']!r}")
    if "enum" in schema and value not in schema["enum"]:
        wrong.append(f"{at}: {value!r} is none of {schema['enum']}")
    for word in ("anyOf", "oneOf"):
        if word in schema and not any(not check(one, value, root, at) for one in schema[word]):
            wrong.append(f"{at}: {value!r} fits none of what it may be")
    if isinstance(value, (int, float)) and not schema.get("minimum", value) <= value <= schema.get("maximum", value):
        wrong.append(f"{at}: {value} is out of range")
    if isinstance(value, dict):
        known = schema.get("properties", {})
        wrong += [f"{at}: {name} is missing" for name in schema.get("required", []) if name not in value]
        for name, inner in value.items():
            wrong += check(known.get(name, schema.get("additionalProperties", True)), inner, root, f"{at}.{name}")
    if isinstance(value, list) and "items" in schema:
        for i, inner in enumerate(value):
            wrong += check(schema["items"], inner, root, f"{at}[{i}]")
    return wrong


schema = json.load(open(sys.argv[1], encoding="utf-8"))
report = json.load(sys.stdin)
wrong = check(schema, report, schema)
if wrong:
    sys.exit("\n".join(wrong))
words = [f"{row['name']} {row['gauge']['value']:.{row['gauge']['decimals']}f} {row['gauge']['unit']}" for row in report.get("gauges", [])]
found = report.get("causes", {}).get("findings", [])
first = max(found, key=lambda row: row["alone_or_with"], default=None)
likeliest = f"; {first['name']} {100 * first['alone_or_with']:.0f} %" if first else ""
print(f"{report.get('refrigerant', 'hold test')}: {', '.join(words)}{likeliest}")

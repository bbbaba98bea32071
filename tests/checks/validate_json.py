#!/usr/bin/env python3
"""Holds a document against its JSON Schema and against what a schema cannot say.

usage: validate_json.py SCHEMA DOCUMENT...      ("-" reads standard input)

For every figure low <= value <= high; for a comparison also: step sums agree with the times within 0.1 s, stock is
part plus waste within 0.1 g, a route is feasible exactly when no warning blocks it, a chosen route passes every
requirement. Exit status 0 good, 1 a document is at fault, 2 usage.
"""
import json
import math
import pathlib
import sys

import jsonschema

TIMES = (("elapsed_time", "seconds"), ("machine_time", "machine_seconds"), ("hands_on_time", "hands_on_seconds"))
SLACK_S = 0.1
SLACK_G = 0.1


def refuse_constant(name):
    raise ValueError(f"{name} is not JSON")


def figures(node, place=""):
    """Every object with a value and bounds, and its place."""
    if isinstance(node, dict):
        if {"value", "low", "high"} <= node.keys():
            yield place, node
        for key, child in node.items():
            yield from figures(child, f"{place}.{key}" if place else key)
    elif isinstance(node, list):
        for i, child in enumerate(node):
            yield from figures(child, f"{place}[{i}]")


def figure_faults(document):
    for place, figure in figures(document):
        low, value, high = figure["low"], figure["value"], figure["high"]
        if not all(math.isfinite(x) for x in (low, value, high)):
            yield f"{place}: not finite"
        elif not low <= value <= high:
            yield f"{place}: {value} lies outside {low} to {high}"


def route_faults(name, route):
    for total, key in TIMES:
        added = math.fsum(step[key] for step in route["steps"])
        if abs(added - route[total]["value"]) > SLACK_S:
            yield f"routes.{name}: steps add up to {added} s, {total} says {route[total]['value']} s"
    whole = route["mass"]["value"] + route["waste"]["value"]
    if abs(route["stock"]["value"] - whole) > SLACK_G:
        yield f"routes.{name}: stock {route['stock']['value']} g, part plus waste {whole} g"
    blocked = any(warning["severity"] == "blocking" for warning in route["warnings"])
    if route["feasible"] == blocked:
        yield f"routes.{name}: feasible does not agree with the warnings"


def comparison_faults(document):
    for name, route in document["routes"].items():
        yield from route_faults(name, route)
    choice = document["verdict"]["choice"]
    if choice in document["routes"]:
        for requirement in document["routes"][choice]["requirements"]:
            if requirement["standing"] != "passes":
                yield f"verdict: {choice} is chosen but {requirement['key']} {requirement['standing']}"


def faults(schema, text):
    try:
        document = json.loads(text, parse_constant=refuse_constant)
    except ValueError as error:
        yield f"not JSON: {error}"
        return
    found = False
    for error in jsonschema.Draft202012Validator(schema).iter_errors(document):
        found = True
        yield f"{error.json_path}: {error.message[:300]}"
    if found:
        return
    yield from figure_faults(document)
    if document.get("schema") == "waybench.comparison":
        yield from comparison_faults(document)


def main(arguments):
    if len(arguments) < 2:
        print(__doc__, file=sys.stderr)
        return 2
    schema = json.loads(pathlib.Path(arguments[0]).read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    status = 0
    for name in arguments[1:]:
        text = sys.stdin.read() if name == "-" else pathlib.Path(name).read_text(encoding="utf-8")
        for fault in faults(schema, text):
            print(f"{name}: {fault}", file=sys.stderr)
            status = 1
        if status == 0:
            print(f"{name}: good")
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

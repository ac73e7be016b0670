#!/usr/bin/env python3
"""An independent solver of a whole house, to hold returnbench against.

Reads {"jobs": [{"job": JOB, "make_laws": {FILTER: LAW}}, ...]} from standard input
and writes one answer a job, in SI, to standard output. Written from textbooks and
published equations, each named at the head of its file (quantities.py, air.py,
parts.py, house.py), not from the program that it checks; needs Debian's
python3-scipy. A job must be fully specified: nothing is assumed here but what
the files say. The drop of a filter known by its pleats is not solved for here:
make_laws brings points of it, and pleats.py says what may be asked of them.
"""

import json
import sys
import traceback

import pleats
from house import House, mean
from parts import allowance
from quantities import MONTH, read


def state(house, s):
    return {
        "airflow": s.airflow, "external_static": s.static, "inside_table": bool(s.inside),
        "filter_drop": s.filter + s.branch_filter, "leak_fraction": s.leak, "blower_power": s.watts,
        "heating_airflow": s.heat.airflow, "heating_static": s.heat.static, "heating_power": s.heat.watts,
        "heating_inside_table": bool(s.heat.inside),
        "temperature_rise": house.rise(s.heat) if "heating_output" in house.equipment else 0,
        "sensible_capacity": house.sensible(s.airflow),
        "ports": s.ports, "branches": [q for b, q in zip(house.branches, s.flows) if b.name],
    }


def solve(job, laws):
    site = job["site"]
    answers = []
    for option in [{"name": "today"}, *job.get("options", [])]:
        house = House(job, option, laws)
        clean, loaded, lives, rows = house.march()
        answer = {"name": option["name"], "clean": state(house, clean), "loaded": state(house, loaded),
                  "lives_months": [t / MONTH for t, _ in lives], "life_ends": [why for _, why in lives]}
        sensible = mean(rows, "sensible")
        if option["name"] == "today":
            today = sensible
        hours = {k: (read("time", site.get(k)) or 0) for k in ("cooling_hours", "heating_hours", "fan_hours")}
        # Every option gives today's sensible cooling: its hours go with today's
        # capacity over its own. A furnace alone cools nothing.
        if job["equipment"]["kind"] != "furnace":
            hours["cooling_hours"] *= today / sensible
        price = read("price", site["power_price"])
        answer["annual_power"] = price * sum(mean(rows, season) * hours[season + "_hours"] for season in ("cooling", "heating", "fan"))
        answer["annual_outdoor"] = price * mean(rows, "outdoor") * hours["cooling_hours"]
        answer["annual_filter"] = sum(p.count * (read("money", p.filter.make.get("price")) or 0) * 12 * MONTH / life
                                      for p, (life, _) in zip(house.places, lives) if life)
        answers.append(answer)
    return answers


def plain_drops(job, laws):
    """The plain pleat model at each point of a law, to hold the law against."""
    house = House(job, {}, laws)
    drops = {}
    for name, law in laws.items():
        make = next(f for f in job["filters"] if f["name"] == name)
        width, height = read("length", make["width"]), read("length", make["height"])
        side, _ = allowance(read("length", make["depth"]))
        pitch = (width - side) / make["pleats"]
        actual = (law["width"] - side) * (law["height"] - side)
        drops[name] = [pleats.drop(pitch, 1, read("length", make["pleat_depth"]), read("length", make["media_thickness"]),
                                   read("length", make["fold_gap"]), read("resistance", make["media_resistance"]),
                                   v * law["width"] * law["height"] / actual, house.here.density, house.here.viscosity)
                       for v, _ in law["points"][::6]]
    return drops


def main():
    pleats.check()
    answers = []
    for entry in json.load(sys.stdin)["jobs"]:
        try:
            job, laws = entry["job"], entry.get("make_laws") or {}
            answers.append({"options": solve(job, laws), "plain_drops": plain_drops(job, laws)})
        except Exception:
            answers.append({"error": traceback.format_exc()})
    json.dump(answers, sys.stdout)


if __name__ == "__main__":
    main()

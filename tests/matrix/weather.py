"""A weather service on loopback: an invented warm, changeable season, asked for as Open-Meteo is."""

import json
import math
import threading
import time
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs, urlparse

HOUR = 3600
DAY = 24 * HOUR
UNITS = {
    "temperature_2m": "°C", "relative_humidity_2m": "%", "dew_point_2m": "°C", "precipitation": "mm",
    "precipitation_probability": "%", "wind_speed_10m": "m/s", "wind_gusts_10m": "m/s", "cloud_cover": "%",
    "shortwave_radiation": "W/m²", "et0_fao_evapotranspiration": "mm",
}


def hour(moment: int, longitude: float) -> dict:
    """Warm days, humid nights, and every third day a wet one: the same at each asking."""
    local = (moment / HOUR + longitude / 15) % 24
    day = int(moment // DAY)
    warmth = math.cos((local - 15) / 24 * 2 * math.pi)
    wet = day % 3 == 0
    temperature = 20 + 6 * warmth + (day * 7 % 5) - 2
    humidity = min(98, 72 - 20 * warmth + (14 if wet else 0))
    sun = max(0.0, math.sin((local - 6) / 12 * math.pi)) * (250 if wet else 750)
    rain = 1.2 if wet and local % 8 < 3 else 0.0
    return {
        "temperature_2m": round(temperature, 1),
        "relative_humidity_2m": round(humidity),
        "dew_point_2m": round(temperature - (100 - humidity) / 5, 1),
        "precipitation": rain,
        "precipitation_probability": 75 if wet else 10,
        "wind_speed_10m": round(1.8 + 1.2 * warmth, 1),
        "wind_gusts_10m": round(4 + 2 * warmth, 1),
        "cloud_cover": 90 if wet else 25,
        "shortwave_radiation": round(sun),
        "et0_fao_evapotranspiration": round(sun / 2200, 2),
    }


def forecast(query: dict) -> dict:
    latitude, longitude = float(query["latitude"][0]), float(query["longitude"][0])
    names = query["hourly"][0].split(",")
    midnight = int(time.time()) // DAY * DAY
    first = midnight - int(query.get("past_days", ["0"])[0]) * DAY
    last = midnight + int(query.get("forecast_days", ["7"])[0]) * DAY
    stamps = list(range(first, last, HOUR))
    hours = [hour(stamp, longitude) for stamp in stamps]
    return {
        "latitude": latitude, "longitude": longitude, "utc_offset_seconds": 0, "timezone": "GMT",
        "hourly_units": {"time": "unixtime", **{name: UNITS[name] for name in names}},
        "hourly": {"time": stamps, **{name: [each[name] for each in hours] for name in names}},
    }


class _Asked(BaseHTTPRequestHandler):
    def do_GET(self) -> None:
        address = urlparse(self.path)
        is_forecast = address.path == "/v1/forecast"
        # No archive and no names of places: what cannot be had is an ordinary answer too.
        body = forecast(parse_qs(address.query)) if is_forecast else {"error": True, "reason": "not here"}
        data = json.dumps(body).encode()
        self.send_response(200 if is_forecast else 404)
        self.send_header("content-type", "application/json; charset=utf-8")
        self.send_header("content-length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)

    def log_message(self, *_) -> None:
        pass


class Weather:
    def __init__(self) -> None:
        self.server = ThreadingHTTPServer(("127.0.0.1", 0), _Asked)
        self.url = f"http://127.0.0.1:{self.server.server_address[1]}"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        self.server.shutdown()

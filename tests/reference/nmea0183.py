#!/usr/bin/python3
# Prints tests/core/nmea0183.txt: sentences of NMEA 0183, and what pynmea2 and gpsd's gpsdecode read in them.
# Usage: nmea0183.py >../core/nmea0183.txt; Debian's python3-nmea2 and gpsd-clients (made with 1.15.0 and 3.22).
import calendar
import json
import random
import subprocess
import time

import pynmea2

random.seed(183)


def whole(text):
    checksum = 0
    for character in text:
        checksum ^= ord(character)
    return f"${text}*{checksum:02X}"


def angle(degrees_wide, most):
    degrees, minutes, places = random.randrange(most), random.random() * 59.999, random.randrange(2, 8)
    return f"{degrees:0{degrees_wide}d}{minutes:0{places + 3}.{places}f}"


def place():
    return f"{angle(2, 90)},{random.choice('NS')},{angle(3, 180)},{random.choice('EW')}"


def epoch(second):
    at = time.gmtime(1719829230 + second)
    clock = time.strftime("%H%M%S", at) + random.choice(["", ".0", ".00", ".000"])
    where, talker = place(), random.choice(["GP", "GN", "GL", "GA"])
    knots, course = random.random() * 20, random.random() * 359.9
    return [whole(f"{talker}RMC,{clock},A,{where},{knots:.3f},{course:.2f},{time.strftime('%d%m%y', at)},,,A"),
            whole(f"{talker}VTG,{course:.2f},T,,M,{knots:.3f},N,{knots * 1.852:.3f},K,A"),
            whole(f"{talker}GGA,{clock},{where},{random.choice('12345')},08,0.9,85.2,M,47.0,M,,")]


def by_pynmea2(sentence):
    read = pynmea2.parse(sentence, check=True)
    told = {}
    if hasattr(read, "lat") and read.lat and (read.sentence_type != "GGA" or read.gps_qual in range(1, 6)):
        told.update(lat=f"{read.latitude:.9f}", lon=f"{read.longitude:.9f}")
    if read.sentence_type == "RMC":
        told.update(mps=f"{float(read.spd_over_grnd) * 1852 / 3600:.6f}", course=read.true_course)
        told.update(utc=calendar.timegm(read.datetime.timetuple()))
    if read.sentence_type == "VTG":
        told.update(mps=f"{float(read.spd_over_grnd_kmph) / 3.6:.6f}", course=read.true_track)
    return "".join(f" {name}={value}" for name, value in told.items())


def by_gpsd(sentences):
    text = "".join(sentence + "\r\n" for sentence in sentences)
    out = subprocess.run(["gpsdecode"], input=text.encode(), capture_output=True, check=True).stdout
    return [report for line in out.splitlines() if (report := json.loads(line))["class"] == "TPV"]


published = ["$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47",
             "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A",
             "$GPVTG,054.7,T,034.4,M,005.5,N,010.2,K*48",
             "$GPGGA,184353.07,1929.045,S,02410.506,E,1,04,2.6,100.00,M,-33.9,M,,0000*6D"]
epochs = [epoch(second) for second in range(40)]
print("# Sentences, and what pynmea2 1.15.0 reads in each and gpsd 3.22 at the end of each second (the lines with =):")
print("# tests/reference/nmea0183.py. Degrees, m/s, s since 1970.")
for sentence in published:
    print(sentence, ":" + by_pynmea2(sentence))
reports = {report["time"]: report for report in by_gpsd([sentence for one in epochs for sentence in one])}
for second, one in enumerate(epochs):
    for sentence in one:
        print(sentence, ":" + by_pynmea2(sentence))
    at = time.strftime("%Y-%m-%dT%H:%M:%S.000Z", time.gmtime(1719829230 + second))
    if at in reports:
        r = reports[at]
        print(f"= lat={r['lat']:.9f} lon={r['lon']:.9f} mps={r['speed']} course={r['track']} utc={1719829230 + second}")

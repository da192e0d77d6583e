"""What the law allows, written down from the texts and not read from the service's rules."""

from typing import Any

from tests.calculations.curing.stays import NEAR

SODIUM_NITRITE_PER_SALT = {"sodium_nitrite": 1.0, "potassium_nitrite": 68.9953 / 85.1038}
"""Weight of sodium nitrite with the nitrite of one weight of the salt; molar masses, from memory."""
NITRITE_ION_PER_SODIUM_NITRITE = 46.0055 / 68.9953


def us_ceiling_ppm(body: dict[str, Any]) -> float:
    """9 CFR 424.21(c) and 424.22(b), text of 2018, as the nitrite salt by weight."""
    method, product = body["method"]["kind"], body["product"]["kind"]
    potassium = body["curing_salt"]["nitrite"]["salt"] == "potassium_nitrite"
    if body["product"].get("for_infants"):
        return 0
    if product == "bacon":
        pumped_or_soaked, dry = (148, 246) if potassium else (120, 200)
        return {"dry": dry, "comminuted": min(156.25, dry)}.get(method, pumped_or_soaked)
    if product == "sausage":
        return 156.25
    return {"dry": 625, "comminuted": 156.25}.get(method, 200)


def us_floor_ppm(body: dict[str, Any]) -> float:
    """120 ppm for what is kept refrigerated (handbook p. 12); 118 where a ceiling of 120 leaves no room (own band)."""
    salt = body["curing_salt"]["nitrite"]["salt"]
    if body["product"]["kind"] == "bacon" and body["method"]["kind"].startswith("injected"):
        return 145.5 * SODIUM_NITRITE_PER_SALT[salt] if salt == "potassium_nitrite" else 118
    if body["product"].get("storage", "keep_refrigerated") != "keep_refrigerated":
        return 0
    soaked_bacon = body["product"]["kind"] == "bacon" and body["method"]["kind"] == "immersion"
    return 118 if soaked_bacon and salt == "sodium_nitrite" else 120


def ceiling_elsewhere_ppm(body: dict[str, Any]) -> float:
    """Sodium nitrite on the whole batch.

    Canada (Health Canada's list, as supplier pages give it): 200, bacon 120. European Union: 150 as the salt until
    8 October 2025, then 80 as the ion (Regulations (EU) 1129/2011 and 2023/2108). Denmark: 60.
    """
    if body["jurisdiction"] == "CA":
        return 120 if body["product"]["kind"] == "bacon" else 200
    europe = 150 if body["on"] < "2025-10-09" else 80 / NITRITE_ION_PER_SODIUM_NITRITE
    return min(60, europe) if body["jurisdiction"] == "DK" else europe


def faults_of_dose(body: dict[str, Any], readings: dict[str, float]) -> list[str]:
    """Which limits the readings of a vessel break, own guards included."""
    slack, sodium = 1 + 1e-9, SODIUM_NITRITE_PER_SALT[body["curing_salt"]["nitrite"]["salt"]]
    taken, vessel = readings["taken"], readings.get("vessel", readings["taken"])
    place, everything = body["jurisdiction"], readings.get("everything", readings["batch"])
    held = max(readings["after_stay"] - NEAR * vessel, 0) if "after_stay" in readings else vessel
    credited = readings["within_stay"] + NEAR * vessel if "within_stay" in readings else vessel
    kept = {
        "650 ppm on any reading": max(taken, vessel) * sodium <= 650 * slack,
        "4,000 ppm in the pickle": readings.get("pickle", 0) * sodium <= 4000 * slack,
        "ceiling of the batch": place == "US" or readings["batch"] * sodium <= ceiling_elsewhere_ppm(body) * slack,
        "ceiling": place != "US" or max(taken, held) <= us_ceiling_ppm(body) * slack,
        "floor": place != "US" or min(taken, vessel, credited) * sodium * slack >= us_floor_ppm(body),
        "floor of Canada": place != "CA" or min(everything, vessel, credited) * sodium * slack >= 100,
        "nothing for infants": not body["product"].get("for_infants"),
    }
    return [f"{what}: {readings}" for what, holds in kept.items() if not holds]

"""A job in which every figure of a finish shows that can: three finishes, each with a piece of its own that waits for no other."""
# Open day and night and without night air, so that nothing hides a figure; but four days of a week are too cold, warm, dry
# and damp for the wax by less than a tenth.
def air(day, temperature, humidity):
    return {"on": f"2027-03-{day:02}", "from": "00:00", "temperature": f"{temperature} C", "humidity": f"{humidity} %"}


SHOP = {
    "people": 3, "hours": {day: ["00:00-24:00"] for day in "mon tue wed thu fri sat sun".split()}, "dust-room": "separate",
    "spray-places": 2, "scale": "5 g", "rate-per-hour": "40.00",
    "air": [{"from": "00:00", "temperature": "18 C", "humidity": "60 %"}, air(2, 14, 60), air(3, 26, 60), air(4, 18, 20),
            air(5, 18, 80)]}
HARD = {
    "format": "coatwright-finish/1", "finish": "hard", "name": "Hard", "family": "hardwax-oil", "dries-by": "reaction",
    "components": [
        {"component": "base", "parts": 3, "density": "0.9 kg/l", "shelf-life": "2 y", "opened-life": "100 d",
         "packs": [{"size": "500 ml", "price": "30.00"}]},
        {"component": "hardener", "parts": 1, "density": "1.1 kg/l", "shelf-life": "1 y", "opened-life": "1 y",
         "packs": [{"size": "50 ml", "price": "10.00"}]}],
    "mix-by": "volume", "ratio-tolerance": "2 %", "induction": "60 min", "pot-life": "4 h", "pot-mass": "2 kg",
    "by-tool": {"roller": {"coverage": "15 m2/l"}}, "thin-most": "10 %", "dry-film-most": "200 um", "food": "ask", "child": "ask",
    "coverage": {"first": "14 m2/l", "later": "18 m2/l", "tolerance": "20 %"}, "solids": "60 %", "by": ["brush", "roller"],
    "coats": {"usual": 3, "most": 4, "a-day": 2}, "flip": "handle",
    "times": {"dust-free": "3 h", "handle": "10 h", "recoat": ["16 h", "30 h"], "sand": "20 h", "wrap": "4 d", "light-use": "5 d",
              "cured": "12 d", "at": "23 C 50 %"},
    "late-times": {"after-coat": 6, "recoat": ["17 h", "31 h"]},
    "wipe-off": ["40 min", "90 min"], "wipe-off-from": 1, "late-recoat": "scuff", "between": {"sand": 320},
    "air": {"temperature": ["10 C", "30 C"], "humidity": ["20 %", "80 %"]},
    "resists": {"water": 1, "alcohol": 1, "heat": 1, "wear": 2, "outdoors": 2}, "cautions": ["vapour"],
    "solvent": "mineral spirits", "sources": {}}
FILM = {
    "format": "coatwright-finish/1", "finish": "film", "name": "Film", "family": "waterborne", "dries-by": "water",
    "components": [
        {"component": "varnish", "parts": 100, "density": "1.05 kg/l", "packs": [{"size": "200 ml", "price": "14.00"}]},
        {"component": "crosslinker", "parts": 12, "density": "1.15 kg/l", "packs": [{"size": "20 ml", "price": "4.00"}]}],
    "kits": [{"contents": {"varnish": "500 ml", "crosslinker": "50 ml"}, "price": "28.00"}],
    "mix-by": "mass", "ratio-tolerance": "10 %", "pot-life": "54 min", "coverage": {"wet-film": "100 um", "tolerance": "15 %"},
    "solids": "35 %", "by": ["hvlp"], "coats": {"usual": 3, "most": 4, "a-day": 2}, "flip": "handle",
    "times": {"dust-free": "30 min", "handle": "2 h", "recoat": ["3 h", "300 min"], "sand": "6 h", "wrap": "3 d", "light-use": "2 d",
              "cured": "10 d", "at": "20 C 50 %"},
    "later-times": {"dust-free": "40 min", "handle": "3 h", "recoat": ["5 h", "9 h"], "sand": "7 h", "wrap": "4 d",
                    "light-use": "3 d", "cured": "14 d"},
    "late-recoat": "scuff", "air": {"temperature": ["10 C", "30 C"], "humidity": ["20 %", "80 %"]},
    "resists": {"water": 2, "alcohol": 2, "heat": 2, "wear": 2, "outdoors": 0}, "cautions": ["spray-mist"], "voc": "40 g/l",
    "sources": {}}
WAX = {
    "format": "coatwright-finish/1", "finish": "wax", "name": "Wax", "family": "wax", "dries-by": "solvent",
    "components": [{"component": "wax", "parts": 1, "density": "0.85 kg/l", "shelf-life": "3 y", "opened-life": "2 y",
                    "packs": [{"size": "250 ml", "price": "12.00"}]}],
    "coverage": {"first": "20 m2/l", "later": "25 m2/l", "tolerance": "20 %"}, "solids": "30 %", "by": ["cloth"],
    "coats": {"usual": 1, "most": 2},
    "times": {"dust-free": "1 h", "handle": "2 h", "recoat": ["12 h", "1 y"], "light-use": "1 d", "cured": "5 d",
              "at": "20 C 50 %"},
    "polish": ["60 min", "5 h"], "late-recoat": "scuff", "air": {"temperature": ["15 C", "25 C"], "humidity": ["21 %", "78 %"]},
    "resists": {"water": 1, "alcohol": 0, "heat": 0, "wear": 1, "outdoors": 0}, "cautions": ["vapour"],
    "solvent": "mineral spirits", "voc": "560 g/l", "sources": {}}
FINISHES = [HARD, FILM, WAX]
JOB = {
    "format": "coatwright-job/1", "job": "Everything", "zone": "UTC", "currency": "GBP", "start": "2027-03-01 08:00",
    "deliver": "2027-05-31 08:00", "deliver-at": "light-use", "reserve": "10 %", "shop": "shop.json", "finishes": "own",
    "stock": "stock.csv",
    "schedules": {"hard": [{"sand": 150}, {"coat": "hard", "by": "brush", "thin": "10 %"}], "film": [{"coat": "film"}],
                  "wax": [{"coat": "wax", "coats": 2}]},
    "pieces": [{"piece": "top", "laid": "flat", "ready": "2027-03-08", "use": ["water", "alcohol", "heat", "outdoors"]},
               {"piece": "panel", "laid": "flat", "ready": "2027-03-20"}, {"piece": "shelf", "ready": "2027-03-02"}],
    "parts": [{"part": "top", "wood": "oak", "length": 2400, "width": 900, "thickness": 30, "all": "hard"},
              {"part": "panel", "wood": "maple", "length": 2000, "width": 1000, "thickness": 18, "all": "film"},
              {"part": "shelf", "wood": "maple", "length": 2400, "width": 520, "thickness": 18, "all": "wax"}]}
STOCK = "finish,component,amount,opened,best-before\nhard,base,120 ml,2026-12-04,\n"

"""Jobs by number, of four kinds in turn: jobs.py basic and shop, shop_jobs.py of 40 to 120 steps, kitchen_jobs.py of 2 to 40 pieces."""
import jobs
import kitchen_jobs
import shop_jobs

FIRST_SEED = 7000
STEPS = (40, 80, 120)


def write(number, folder):
    """Writes the job below a folder; its path."""
    seed, kind = FIRST_SEED + number, number % 4
    if kind < 2:
        return jobs.write(seed, ("basic", "shop")[kind], folder)
    return kitchen_jobs.write(seed, folder) if kind == 3 else shop_jobs.write(seed, STEPS[number // 4 % 3], folder)

"""The rehearsal of `src/rehearse` once more, vectorised in numpy: for speed and as a second opinion on the hours.

usage: numpy_rehearsal.py PARTY.json TRIPS

PARTY.json is written by `FARDEL_PARTY=PARTY.json cargo bench --bench rehearse`. All trips of a batch go ahead together: the
first event of every trip, then the second, and so on; in each step the repairs are tried from the best on.
"""

import json
import sys
import time

import numpy as np

BATCH = 100_000
HOUR = 1e6


class Course:
    def __init__(self, party):
        [member] = party["members"]
        self.legs = len(party["days"])
        self.stock = np.array([stock["units"] for stock in party["stocks"]], dtype=np.int64)
        faults = member["faults"]
        self.riding = np.array([fault["riding"] for fault in faults]).ravel()
        self.falls = np.array(member["falls"])
        self.owed, self.fall_cost = member["owed_to_weight"], member["per_fall"]
        self.breakage = np.array([fault["per_fall"] for fault in faults])
        self.unrepaired = np.array([fault["unrepaired"] for fault in faults], dtype=np.int64).ravel()
        choices = []
        for fault in faults:
            for leg in range(self.legs):
                order = sorted((r for r in fault["repairs"] if r["costs"][leg] is not None), key=lambda repair: repair["costs"][leg])
                choices.append([(r["costs"][leg], r["uses"]) for r in order if r["costs"][leg] < fault["unrepaired"][leg]])
        self.depth = max(map(len, choices), default=0)
        self.width = max((len(uses) for own in choices for _, uses in own), default=0)
        shape = (len(choices), self.depth)
        self.cost = np.zeros(shape, dtype=np.int64)
        self.there = np.zeros(shape, dtype=bool)
        # Stock 0 with no units stands for no use at all.
        self.uses = np.zeros(shape + (max(self.width, 1), 2), dtype=np.int64)
        for at, own in enumerate(choices):
            for rank, (cost, uses) in enumerate(own):
                self.cost[at, rank], self.there[at, rank] = cost, True
                for place, use in enumerate(uses):
                    self.uses[at, rank, place] = use


def cells(rng, means, count):
    """Which of the sources each event belongs to."""
    steps = np.cumsum(means)
    return np.minimum(np.searchsorted(steps, rng.random(count) * steps[-1], side="right"), len(means) - 1)


def ride(course, trips, rng):
    """Hours lost on each of the trips, in microhours."""
    lost = np.zeros(trips, dtype=np.int64)
    counts = rng.poisson(course.riding.sum(), trips)
    trip = np.repeat(np.arange(trips), counts)
    situation = cells(rng, course.riding, len(trip))
    moment = situation % course.legs + rng.random(len(trip))
    if course.falls.sum() > 0:
        falls = rng.poisson(course.falls.sum(), trips)
        fall_trip = np.repeat(np.arange(trips), falls)
        leg = cells(rng, course.falls, len(fall_trip))
        fall_moment = leg + rng.random(len(fall_trip))
        heavy = rng.random(len(fall_trip)) < course.owed
        np.add.at(lost, fall_trip[heavy], course.fall_cost)
        broken = rng.poisson(course.breakage.sum(), len(fall_trip))
        fault = cells(rng, course.breakage, broken.sum())
        trip = np.concatenate([trip, np.repeat(fall_trip, broken)])
        situation = np.concatenate([situation, fault * course.legs + np.repeat(leg, broken)])
        moment = np.concatenate([moment, np.repeat(fall_moment, broken)])
    order = np.lexsort((moment, trip))
    trip, situation = trip[order], situation[order]
    first = np.searchsorted(trip, np.arange(trips))
    rank = np.arange(len(trip)) - first[trip]
    left = np.tile(course.stock, (trips, 1))
    for turn in range(rank.max(initial=-1) + 1):
        now = np.flatnonzero(rank == turn)
        who, what = trip[now], situation[now]
        cost = course.unrepaired[what].copy()
        open_ = np.ones(len(now), dtype=bool)
        for choice in range(course.depth):
            possible = open_ & course.there[what, choice]
            for place in range(course.width):
                stock, units = course.uses[what, choice, place].T
                possible &= left[who, stock] >= units
            for place in range(course.width):
                stock, units = course.uses[what, choice, place].T
                left[who[possible], stock[possible]] -= units[possible]
            cost[possible] = course.cost[what[possible], choice]
            open_ &= ~possible
        lost[who] += cost
    return lost


def main(path, trips):
    with open(path, encoding="utf-8") as file:
        course = Course(json.load(file))
    rng = np.random.default_rng(1)
    start, sums, squares, done = time.process_time(), 0.0, 0.0, 0
    while done < trips:
        hours = ride(course, min(BATCH, trips - done), rng) / HOUR
        sums, squares, done = sums + hours.sum(), squares + (hours**2).sum(), done + len(hours)
    speed = done / (time.process_time() - start)
    mean = sums / done
    print(json.dumps({"trips_per_second": speed, "mean": mean, "error": ((squares / done - mean**2) / done) ** 0.5}))


main(sys.argv[1], int(sys.argv[2]))

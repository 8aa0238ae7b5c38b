//! Invented routes of an invented season. Distances, hours and heights of the thermometer are made up.

/// A stretch of a route.
pub(super) struct Stretch {
    pub name: &'static str,
    pub days: u32,
    /// Sealed, gravel, track, rough.
    pub km: [u32; 4],
    pub hours_to_help: u32,
    pub fuel_every: u32,
}

/// A route that departs many times in a season.
pub(super) struct Route {
    pub name: &'static str,
    /// `none`, `roofed` or `camping`.
    pub style: &'static str,
    pub stretches: &'static [Stretch],
    /// Colder than in the valley, °C.
    pub colder: i32,
}

const fn stretch(name: &'static str, days: u32, km: [u32; 4], hours_to_help: u32, fuel_every: u32) -> Stretch {
    Stretch { name, days, km, hours_to_help, fuel_every }
}

impl Route {
    pub fn days(&self) -> u32 {
        self.stretches.iter().map(|stretch| stretch.days).sum()
    }
}

/// The invented routes of a season.
pub(super) const ROUTES: &[Route] = &[
    Route {
        name: "Tammel hills in a day",
        style: "none",
        stretches: &[stretch("ridge and brook", 1, [80, 70, 25, 2], 4, 100)],
        colder: 2,
    },
    Route {
        name: "Lower Odd valley",
        style: "none",
        stretches: &[stretch("farm roads", 1, [120, 90, 8, 0], 2, 110)],
        colder: 0,
    },
    Route {
        name: "Quarry tracks",
        style: "none",
        stretches: &[stretch("round the quarries", 1, [30, 40, 55, 12], 6, 90)],
        colder: 1,
    },
    Route {
        name: "Heath and dunes",
        style: "none",
        stretches: &[stretch("over the heath", 1, [60, 30, 45, 18], 5, 100)],
        colder: 0,
    },
    Route {
        name: "Two days to Pellam",
        style: "roofed",
        stretches: &[
            stretch("out by the lake", 1, [110, 120, 20, 0], 4, 150),
            stretch("home by the pass", 1, [140, 80, 15, 2], 5, 150),
        ],
        colder: 3,
    },
    Route {
        name: "Forest weekend",
        style: "camping",
        stretches: &[
            stretch("into the forest", 1, [60, 100, 40, 4], 8, 140),
            stretch("and out of it", 1, [90, 70, 20, 0], 5, 140),
        ],
        colder: 4,
    },
    Route {
        name: "Four huts",
        style: "roofed",
        stretches: &[
            stretch("hut to hut", 3, [90, 210, 120, 15], 10, 150),
            stretch("down the valley", 1, [160, 50, 0, 0], 3, 150),
        ],
        colder: 6,
    },
    Route {
        name: "Five days over Ravenna",
        style: "camping",
        stretches: &[
            stretch("to the saddle", 1, [90, 110, 30, 0], 7, 150),
            stretch("over the range", 3, [0, 190, 200, 35], 20, 150),
            stretch("to the coast", 1, [150, 70, 0, 0], 4, 150),
        ],
        colder: 8,
    },
];

//! Questions whose answers are published: what riders wrote about long trips of their own.
//!
//! They were chosen for their answers being counts of what is asked about elsewhere (falls, punctures, breakdowns), from logs
//! that tell kilometres and counts. Each is one rider's account, with a classification of their own.

/// A question whose answer is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calibration {
    /// What it is called in a file of answers.
    pub id: &'static str,
    /// The question.
    pub text: &'static str,
    /// The answer.
    pub truth: f64,
    /// Where it was published; shown only after answers are read.
    pub source: &'static str,
}

/// All of them. Their order is part of the questionnaire.
pub const CALIBRATION: [Calibration; 10] = [
    Calibration {
        id: "log-1",
        text: "One rider on a long trip through Africa, 11,600 km by their own account: how many falls?",
        truth: 4.0,
        source: "trip log, africansupertramp.blogspot.com, October 2011",
    },
    Calibration {
        id: "log-2",
        text: "One rider round the world, 80,322 km: how many punctures?",
        truth: 3.0,
        source: "trip log, the-girl-is-a-liability.blogspot.com, September 2007",
    },
    Calibration {
        id: "log-3",
        text: "The same 80,322 km: how many times did the chain break?",
        truth: 2.0,
        source: "trip log, the-girl-is-a-liability.blogspot.com, September 2007",
    },
    Calibration {
        id: "log-4",
        text: "One rider on a long trip of 86,605 km: how many falls?",
        truth: 2.0,
        source: "trip log, mylastgreatride.blogspot.com, December 2019",
    },
    Calibration {
        id: "log-5",
        text: "One rider overland through Africa, 24,538 km: how many punctures?",
        truth: 5.0,
        source: "trip log, journey2dakar.com, September 2010",
    },
    Calibration {
        id: "log-6",
        text: "One rider, 59,030 km on 106 riding days: how many punctures?",
        truth: 5.0,
        source: "trip log, fredleeming.com, gone-bikin-14",
    },
    Calibration {
        id: "log-7",
        text: "The same 59,030 km on 106 riding days: how many falls, a crash included?",
        truth: 16.0,
        source: "trip log, fredleeming.com, gone-bikin-14",
    },
    Calibration {
        id: "log-8",
        text: "The same 59,030 km on 106 riding days: how many breakdowns?",
        truth: 7.0,
        source: "trip log, fredleeming.com, gone-bikin-14",
    },
    Calibration {
        id: "log-9",
        text: "One bike, 29,756 km on 115 riding days: how many falls?",
        truth: 3.0,
        source: "trip log, 2ridetheglobe.com",
    },
    Calibration {
        id: "log-10",
        text: "One bike, 32,187 km: how many punctures?",
        truth: 4.0,
        source: "trip log, placesbeyond.com, breakdowns and maintenance",
    },
];

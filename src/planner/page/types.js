/**
 * Shapes that the modules of the page share. Nothing runs here; editors and `tsc --checkJs` read it.
 *
 * Masses are in grams, lengths in millimetres, volumes in millilitres, times in hours, as in the JSON of the command line.
 *
 * @typedef {Record<string, number>} Counts ids to counts
 * @typedef {Record<string, any>} Tree a file as a JSON tree
 *
 * @typedef {object} Fault one thing wrong with a file
 * @property {string} title
 * @property {string} [code]
 * @property {string} [file]
 * @property {number} [line]
 * @property {string} [place]
 * @property {string} [excerpt]
 * @property {string} [found]
 * @property {string} [expected]
 * @property {string} [nearest]
 *
 * @typedef {object} Refusal why a call has no answer
 * @property {string} [message]
 * @property {Fault[]} faults
 * @property {{text: string}[]} [shortfalls]
 * @property {{changes: {what: string, text: string, to: number, unit: string}[]}[]} [ways_out]
 *
 * @typedef {object} Item a thing of the catalogue
 * @property {string} id
 * @property {string} name
 * @property {string} short
 * @property {string} kind
 * @property {number} mass_g
 * @property {number} volume_ml
 * @property {number} price
 * @property {string[]} mends
 * @property {string[]} also
 * @property {string} basis
 * @property {boolean} [own] stands in the trip itself
 *
 * @typedef {object} Bag a bag of the catalogue
 * @property {string} id
 * @property {string} name
 * @property {number} volume_ml
 * @property {number} usable_ml
 * @property {number} mass_g
 * @property {number} max_load_g
 * @property {"left" | "right" | "centre"} side
 * @property {number} ahead_mm ahead of the rear axle
 * @property {number} out_mm
 * @property {number} height_mm
 *
 * @typedef {object} Bike
 * @property {string} id
 * @property {string} name
 * @property {number} mass_g
 * @property {number | null} max_mass_g
 * @property {number} wheelbase_mm
 * @property {number} front_share
 * @property {number | null} tank_ml none on an electric bike
 * @property {Record<string, number> | null} range_km what a full battery does, by surface; none on a bike with a tank
 * @property {number | null} front_load_index
 * @property {number | null} rear_load_index
 * @property {number | null} front_axle_limit_g
 * @property {number | null} rear_axle_limit_g
 * @property {number} rider_x_mm
 * @property {Record<string, string>} attributes
 * @property {Counts} toolkit
 * @property {string[]} bags
 *
 * @typedef {object} Catalogue
 * @property {string} version
 * @property {string} currency
 * @property {string[]} cautions
 * @property {Tree} prices
 * @property {Bike[]} bikes
 * @property {{id: string, name: string, values: string[] | null}[]} attributes
 * @property {Bag[]} bags
 * @property {Item[]} items
 * @property {{id: string, name: string, system: string, applies: Record<string, string[]>}[]} failures
 * @property {{id: string, name: string}[]} systems
 * @property {{id: string, name: string}[]} preparations
 * @property {Map<string, string>} signs by failure: its name and system in English
 * @property {{name: string, title: string, about: string, scenario: Tree}[]} samples
 *
 * @typedef {object} Packed what stands in a bag of an answer
 * @property {string} id
 * @property {string} name
 * @property {number} count
 * @property {number} mass_g
 * @property {number} volume_ml
 * @property {string} kind
 * @property {string} standing
 * @property {number} to_buy_in_kit
 * @property {string[]} purposes
 * @property {number} hours_lost_without
 * @property {{weight_h: number, packing_h: number, money_h: number}} costs
 *
 * @typedef {object} PackedBag
 * @property {string} id
 * @property {string} name
 * @property {number} filled_ml
 * @property {number} usable_ml
 * @property {number} empty_g
 * @property {number} mass_g
 * @property {number} max_load_g
 * @property {boolean} part_of_bike
 * @property {Packed[]} items
 *
 * @typedef {object} Carrier a rider with what is in that rider's bags
 * @property {string} name
 * @property {string} bike
 * @property {number} mass_g
 * @property {number | null} limit_g
 * @property {number} [share_g]
 * @property {PackedBag[]} bags
 * @property {any} load
 *
 * @typedef {object} Sets sets of things that are used together, and those that are not in one bag
 * @property {number} whole
 * @property {number} of
 * @property {{name: string, bags: string[]}[]} split
 *
 * @typedef {object} State everything that is kept of one trip
 * @property {number} v version of this shape
 * @property {string} id
 * @property {number} rev
 * @property {number} changed milliseconds since 1970
 * @property {Tree} scenario the scenario file
 * @property {Record<string, string>} files what it names beside itself
 * @property {Record<string, {bag: string, count: number}>} ticks by rider and thing
 * @property {Record<string, boolean>} looked checks that were made
 * @property {Record<string, number>} scale by rider and bag: grams on the rider's own scale, bag included
 * @property {Counts} used up on the trip
 * @property {Tree} ride the log so far
 * @property {string} book all logs, as text
 * @property {{item: string, from: string, to: string}[]} moved by hand in a group
 * @property {{name: string, summary: string, picture: string} | null} [way] the track of the trip: its file, a few lines, its SVG
 * @property {{name: string, was: string} | null} [from] file of the folder that it was opened from
 * @property {any} answer the last one
 * @property {string} answerFor the question that it answers
 * @property {string} answerState
 */
export {};

/**
 * What the wheels bear, by the rule of the lever: a mass that lies x ahead of the rear axle puts x over the wheelbase of itself
 * on the front wheel. The engine has the same figures in its answers; here they follow a finger.
 */

/**
 * @param {import("./types.js").Bike} bike
 * @param {number} rider_g the rider, dressed to ride
 * @param {{bag: import("./types.js").Bag, kit_g: number}[]} bags
 */
export function wheels(bike, rider_g, bags) {
  let front = bike.mass_g * bike.front_share;
  let total = bike.mass_g;
  /** @param {number} mass @param {number} ahead */
  const put = (mass, ahead) => {
    front += (mass * ahead) / bike.wheelbase_mm;
    total += mass;
  };
  put(rider_g, bike.rider_x_mm);
  for (const { bag, kit_g } of bags) put(bag.mass_g + kit_g, bag.ahead_mm);
  return { front_g: front, rear_g: total - front, total_g: total };
}

/**
 * Masses by load index in kilograms, 40 to 85: UN Regulation 75, Annex 4, as in `src/core/domain/tyre.rs`. A test compares them.
 * The sidewall and the owner's manual decide.
 */
const INDEX = [
  140, 145, 150, 155, 160, 165, 170, 175, 180, 185, 190, 195, 200, 206, 212, 218, 224, 230, 236, 243, 250, 257, 265, 272, 280, 290, 300,
  307, 315, 325, 335, 345, 355, 365, 375, 387, 400, 412, 425, 437, 450, 462, 475, 487, 500, 515,
];

/** What a tyre of this load index bears, in grams, or null. @param {number | null} index */
export const tyre = (index) => (index && INDEX[index - 40] ? INDEX[index - 40] * 1000 : null);

/** The lower of what axle and tyre bear. @param {import("./types.js").Bike} bike */
export function limits(bike) {
  const lower = (/** @type {number | null} */ a, /** @type {number | null} */ b) => (a && b ? Math.min(a, b) : (a ?? b));
  return {
    front_g: lower(bike.front_axle_limit_g, tyre(bike.front_load_index)),
    rear_g: lower(bike.rear_axle_limit_g, tyre(bike.rear_load_index)),
    total_g: bike.max_mass_g,
  };
}

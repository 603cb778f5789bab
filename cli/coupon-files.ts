/** Name of the measuring list, beside the coupon. */
export const COUPON_LIST = 'fit-coupon-measurements.yaml';

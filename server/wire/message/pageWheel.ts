/**
 * The `id` of tilt readings that come from the wheel on the page and not from a sensor on a saw. That wheel goes no faster than
 * the plan's crew, so that whoever learns from the readings has to know it.
 */
export const PAGE_WHEEL_ID = 'page wheel';

/**
 * What evidence costs: in comes what {@code cells} saw, out come negative logarithms of
 * probabilities ({@code costs.json}) and confidences ({@code calibration.json}). Uses {@code
 * cells}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon.cost;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;

/**
 * What evidence costs: in comes what {@code cells} saw, out come negative logarithms of
 * probabilities ({@code costs.json}) and confidences ({@code calibration.json}). Uses {@code
 * cells}.
 */
@NullMarked
package org.barmap.reckon.cost;

import org.jspecify.annotations.NullMarked;

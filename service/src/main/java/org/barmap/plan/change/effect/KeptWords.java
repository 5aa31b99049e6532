package org.barmap.plan.change.effect;

import java.util.Optional;

/**
 * Words that are kept as they were said.
 *
 * @param first address of the bar they are about; empty for a whole number or the whole show
 * @param text the words
 * @param errata whether they tell of a misprint
 */
public record KeptWords(Optional<String> first, String text, boolean errata) {}

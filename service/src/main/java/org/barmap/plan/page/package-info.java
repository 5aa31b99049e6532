/**
 * How the pages of a book lie before the player: which page is a left one, which two lie open
 * together, how many leaves lie between two pages.
 *
 * <p>Odd printed page numbers lie on the right (MOLA guidelines); two pages of one picture lie open
 * together whatever is printed on them; what the player says goes before what was read. One class
 * decides, {@link org.barmap.plan.page.Sides}, and everything that speaks of turns asks it.
 */
@NullMarked
package org.barmap.plan.page;

import org.jspecify.annotations.NullMarked;

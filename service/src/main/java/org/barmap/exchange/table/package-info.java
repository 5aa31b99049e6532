/**
 * What a spreadsheet can show of a book and its plan: in come a map, a plan and changes, out come
 * tables, as CSV (RFC 4180) or as the sheets of one workbook (Office Open XML). Nothing that came
 * from a page or a person is ever a formula.
 */
@NullMarked
package org.barmap.exchange.table;

import org.jspecify.annotations.NullMarked;

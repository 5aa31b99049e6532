/**
 * Small books in a line of text, random ones, and the tests of the walker with both. The notation
 * is described at the head of {@code cases.txt}.
 */
package org.barmap.plan.reference.books;

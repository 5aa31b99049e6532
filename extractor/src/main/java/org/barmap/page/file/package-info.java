/**
 * Files and folders: in come paths, out come their pages in order as pictures of the file's own
 * pixels (PNG, JPEG, TIFF, PDF). Uses {@code pixel}.
 */
@NullMarked
package org.barmap.page.file;

import org.jspecify.annotations.NullMarked;

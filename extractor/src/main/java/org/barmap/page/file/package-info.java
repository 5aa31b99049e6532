/**
 * Files and folders: in come paths, out come their pages in order as pictures of the file's own
 * pixels (PNG, JPEG, TIFF, PDF). Uses {@code pixel}.
 *
 * <p>PDFBox leaves out a picture that it can't decode and only logs it; {@link
 * org.barmap.page.file.PdfDrawing} keeps account of that, {@code PdfPictureCheck} looks at a
 * picture before memory is asked for. JPEG 2000 is decoded by OpenJPEG inside Leptonica (both BSD):
 * the decoders in pure Java descend from JJ2000, whose terms the Apache licence excludes, and
 * OpenCV's own is an old JasPer.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.page.file;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;

@NullMarked
package org.barmap.web;

import org.jspecify.annotations.NullMarked;

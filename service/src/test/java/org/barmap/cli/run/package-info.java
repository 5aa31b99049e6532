@org.jspecify.annotations.NullMarked
package org.barmap.cli.run;

package org.barmap.web.site;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Puts a module of the pages and all it imports into one script, for a page that is a single file:
 * each module becomes a function that is called once and returns what it exports. The pages keep to
 * the few forms this understands: imports of names on one line, exports before a declaration.
 */
final class Bundle {

  private static final Pattern IMPORT =
      Pattern.compile("^import \\{ ([^}]*) \\} from \"([./\\w-]+)\";$", Pattern.MULTILINE);
  private static final Pattern EXPORT =
      Pattern.compile(
          "^export (?=(?:async )?(?:function\\*?|class|const|let) (\\w+))", Pattern.MULTILINE);
  private static final Pattern LEFT = Pattern.compile("^(import|export)\\b", Pattern.MULTILINE);

  private final Map<String, String> names = new LinkedHashMap<>();
  private final StringBuilder script = new StringBuilder("\"use strict\";\n");

  private Bundle() {}

  /** Returns the script of a module, by its address on the site. */
  static String of(String module) {
    Bundle bundle = new Bundle();
    bundle.add(module);
    return bundle.script.toString().replace("</script", "<\\/script");
  }

  /** Returns the addresses of all that a module imports, and what those import, itself left out. */
  static Set<String> imported(String module) {
    Set<String> found = new LinkedHashSet<>();
    imported(module, found);
    found.remove(module);
    return found;
  }

  private static void imported(String module, Set<String> found) {
    if (found.add(module)) {
      SitePages.resource("/site" + module)
          .lines()
          .filter(line -> line.startsWith("import "))
          .map(IMPORT::matcher)
          .filter(Matcher::find)
          .forEach(imports -> imported(near(module, imports.group(2)), found));
    }
  }

  /** Adds a module behind those it needs; returns the name of what it exports. */
  private String add(String module) {
    String known = names.get(module);
    if (known != null) {
      return known;
    }
    Matcher imports = IMPORT.matcher(SitePages.resource("/site" + module));
    StringBuilder body = new StringBuilder();
    while (imports.find()) {
      String from = add(near(module, imports.group(2)));
      imports.appendReplacement(
          body, "const { " + imports.group(1).replace(" as ", ": ") + " } = " + from + ";");
    }
    imports.appendTail(body);
    List<String> exported = new ArrayList<>();
    Matcher exports = EXPORT.matcher(body.toString());
    while (exports.find()) {
      exported.add(exports.group(1));
    }
    String plain = EXPORT.matcher(body.toString()).replaceAll("");
    if (LEFT.matcher(plain).find()) {
      throw new IllegalStateException(module + " imports or exports in a form nobody expected");
    }
    String name = "m" + names.size();
    names.put(module, name);
    script.append("const ").append(name).append(" = (() => {\n").append(plain);
    script.append(exported.stream().collect(Collectors.joining(", ", "return { ", " };\n})();\n")));
    return name;
  }

  private static String near(String module, String said) {
    Path here = Path.of(module).resolveSibling(said).normalize();
    return here.toString().replace('\\', '/');
  }
}

package org.barmap.map.rule;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/** What a JSON Schema can't say: ids are unique, and everything named exists. */
public final class BarMapRules {

  private BarMapRules() {}

  /** Returns what is wrong, one sentence each; empty when nothing is. */
  public static List<String> check(BarMap map) {
    List<String> wrong = new ArrayList<>();
    Set<Integer> pages = new HashSet<>();
    Set<String> systems = new HashSet<>();
    for (Page page : map.pages()) {
      if (!pages.add(page.index())) {
        wrong.add("page " + page.index() + " is there twice");
      }
      for (StaffSystem system : page.systems()) {
        if (!systems.add(page.index() + "/" + system.index())) {
          wrong.add("page " + page.index() + " has system " + system.index() + " twice");
        }
      }
    }
    Set<String> ids = new HashSet<>();
    for (Bar bar : map.bars()) {
      if (!ids.add(bar.id())) {
        wrong.add("bar id " + bar.id() + " is there twice");
      }
      if (!systems.contains(bar.page() + "/" + bar.system())) {
        wrong.add("bar " + bar.id() + " names a system that is not there");
      }
    }
    for (MusicalNumber number : map.numbers()) {
      number
          .firstBar()
          .filter(id -> !ids.contains(id))
          .ifPresent(id -> wrong.add("No. " + number.label() + " starts at unknown bar " + id));
      number
          .lastBar()
          .filter(id -> !ids.contains(id))
          .ifPresent(id -> wrong.add("No. " + number.label() + " ends at unknown bar " + id));
    }
    return List.copyOf(wrong);
  }
}

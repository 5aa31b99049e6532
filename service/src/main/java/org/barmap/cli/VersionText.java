package org.barmap.cli;

import org.barmap.web.route.Version;
import picocli.CommandLine.IVersionProvider;

/** What {@code --version} prints. */
final class VersionText implements IVersionProvider {
  @Override
  public String[] getVersion() {
    return new String[] {"barmap " + Version.text()};
  }
}

package org.barmap.library.postgres;

import java.sql.Types;
import org.jdbi.v3.core.argument.AbstractArgumentFactory;
import org.jdbi.v3.core.argument.Argument;
import org.jdbi.v3.core.config.ConfigRegistry;

/** Text as PostgreSQL takes it: the one character it can't keep becomes the sign for it. */
final class StorableText extends AbstractArgumentFactory<String> {

  StorableText() {
    super(Types.VARCHAR);
  }

  @Override
  protected Argument build(String value, ConfigRegistry config) {
    String text = value.replace('\0', '\u2400');
    return (position, statement, context) -> statement.setString(position, text);
  }
}

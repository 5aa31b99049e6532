package org.barmap.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.net.URL;
import org.jspecify.annotations.Nullable;
import org.w3c.dom.ls.LSInput;

/** A schema that lies beside the tests. */
record LocalInput(
    URL url, @Nullable String publicId, @Nullable String systemId, @Nullable String base)
    implements LSInput {

  @Override
  public InputStream getByteStream() {
    try {
      return url.openStream();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public @Nullable Reader getCharacterStream() {
    return null;
  }

  @Override
  public void setCharacterStream(Reader reader) {}

  @Override
  public void setByteStream(InputStream stream) {}

  @Override
  public @Nullable String getStringData() {
    return null;
  }

  @Override
  public void setStringData(String data) {}

  @Override
  public @Nullable String getSystemId() {
    return systemId;
  }

  @Override
  public void setSystemId(String id) {}

  @Override
  public @Nullable String getPublicId() {
    return publicId;
  }

  @Override
  public void setPublicId(String id) {}

  @Override
  public @Nullable String getBaseURI() {
    return base;
  }

  @Override
  public void setBaseURI(String uri) {}

  @Override
  public @Nullable String getEncoding() {
    return null;
  }

  @Override
  public void setEncoding(String encoding) {}

  @Override
  public boolean getCertifiedText() {
    return false;
  }

  @Override
  public void setCertifiedText(boolean certified) {}
}

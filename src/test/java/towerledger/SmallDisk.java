package towerledger;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import org.h2.store.fs.FileBaseDefault;
import org.h2.store.fs.FilePath;
import org.h2.store.fs.FilePathWrapper;

/** A disk for the embedded database ({@code jdbc:h2:small:…}) that can be told that it is full. */
public class SmallDisk extends FilePathWrapper {

  private static volatile boolean full;

  static void ready() {
    full = false;
    FilePath.register(new SmallDisk());
  }

  static void fill(boolean isFull) {
    full = isFull;
  }

  @Override
  public String getScheme() {
    return "small";
  }

  @Override
  public FileChannel open(String mode) throws IOException {
    return new Channel(super.open(mode));
  }

  private static final class Channel extends FileBaseDefault {

    private final FileChannel file;

    Channel(FileChannel file) {
      this.file = file;
    }

    @Override
    public int write(ByteBuffer bytes, long position) throws IOException {
      if (full) {
        throw new IOException("No space left on device");
      }
      return file.write(bytes, position);
    }

    @Override
    public int read(ByteBuffer into, long position) throws IOException {
      return file.read(into, position);
    }

    @Override
    public long size() throws IOException {
      return file.size();
    }

    @Override
    protected void implTruncate(long size) throws IOException {
      file.truncate(size);
    }

    @Override
    public void force(boolean metadata) throws IOException {
      file.force(metadata);
    }

    @Override
    public FileLock tryLock(long position, long size, boolean shared) throws IOException {
      return file.tryLock(position, size, shared);
    }

    @Override
    protected void implCloseChannel() throws IOException {
      file.close();
    }
  }
}

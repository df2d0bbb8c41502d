package towerledger.office.rounds;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Iterator;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;

/**
 * Writes a photo anew: at most {@value #LONGEST_SIDE} pixels long, as JPEG, and without anything
 * the camera wrote about itself or where it was.
 */
final class Photo {

  static final int MOST_BYTES = 12 << 20;
  static final int LONGEST_SIDE = 1600;
  private static final long MOST_PIXELS = 60_000_000;
  private static final float QUALITY = 0.8f;

  private Photo() {}

  /**
   * The photo, written anew.
   *
   * @throws PhotoRefused when it is too large or no picture this program reads, with the remedy
   */
  static byte[] rewrite(byte[] sent) {
    if (sent.length > MOST_BYTES) {
      throw new PhotoRefused("photo.too-large");
    }
    try (ImageInputStream in = ImageIO.createImageInputStream(new ByteArrayInputStream(sent))) {
      Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        throw new PhotoRefused("photo.no-picture");
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, true, true);
        if ((long) reader.getWidth(0) * reader.getHeight(0) > MOST_PIXELS) {
          throw new PhotoRefused("photo.too-large");
        }
        return jpeg(smaller(reader.read(0)));
      } finally {
        reader.dispose();
      }
    } catch (IOException | IllegalArgumentException e) {
      throw new PhotoRefused("photo.no-picture");
    }
  }

  private static BufferedImage smaller(BufferedImage image) {
    double scale =
        Math.min(1, (double) LONGEST_SIDE / Math.max(image.getWidth(), image.getHeight()));
    int width = Math.max(1, (int) Math.round(image.getWidth() * scale));
    int height = Math.max(1, (int) Math.round(image.getHeight() * scale));
    BufferedImage copy = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D paint = copy.createGraphics();
    paint.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    paint.setColor(Color.WHITE);
    paint.fillRect(0, 0, width, height);
    paint.drawImage(image, 0, 0, width, height, null);
    paint.dispose();
    return copy;
  }

  private static byte[] jpeg(BufferedImage image) throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    var bytes = new ByteArrayOutputStream();
    try (var out = ImageIO.createImageOutputStream(bytes)) {
      ImageWriteParam how = writer.getDefaultWriteParam();
      how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      how.setCompressionQuality(QUALITY);
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), how);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }

  /** A photo that is not taken. */
  static final class PhotoRefused extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** The message is the key of a text that says why and what to do. */
    PhotoRefused(String key) {
      super(key);
    }
  }
}

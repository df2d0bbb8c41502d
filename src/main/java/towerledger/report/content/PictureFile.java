package towerledger.report.content;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import javax.imageio.ImageIO;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.apache.batik.transcoder.TranscoderException;
import org.apache.batik.transcoder.TranscoderInput;
import org.apache.batik.transcoder.TranscoderOutput;
import org.apache.batik.transcoder.image.ImageTranscoder;
import towerledger.drawing.BarSheet;
import towerledger.drawing.Tone;

/** Makes the picture of a drawing: mail readers show PNG and drop vectors. */
final class PictureFile {

  /** Dots a pixel: phones have two to three. */
  private static final float SHARPNESS = 2.5f;

  private PictureFile() {}

  /** The drawing as PNG on light ground. */
  static byte[] png(String svg) {
    var canvas = new Canvas();
    canvas.addTranscodingHint(ImageTranscoder.KEY_WIDTH, (float) BarSheet.WIDTH * SHARPNESS);
    canvas.addTranscodingHint(
        ImageTranscoder.KEY_BACKGROUND_COLOR, Color.decode(Tone.FIELD.onLight()));
    canvas.addTranscodingHint(ImageTranscoder.KEY_ALLOW_EXTERNAL_RESOURCES, false);
    canvas.addTranscodingHint(ImageTranscoder.KEY_EXECUTE_ONLOAD, false);
    var out = new ByteArrayOutputStream(40_000);
    try {
      canvas.transcode(new TranscoderInput(new StringReader(svg)), new TranscoderOutput(out));
      return out.toByteArray();
    } catch (TranscoderException e) {
      throw new IllegalStateException("the picture of the report could not be drawn", e);
    }
  }

  /**
   * Draws without transparency and leaves the file to the platform: the drawing library's own PNG
   * writer takes longer than drawing does.
   */
  private static final class Canvas extends ImageTranscoder {

    @Override
    public BufferedImage createImage(int width, int height) {
      return new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    }

    @Override
    public void writeImage(BufferedImage image, TranscoderOutput output) {
      try (var stream = new MemoryCacheImageOutputStream(output.getOutputStream())) {
        ImageIO.write(image, "png", stream);
      } catch (IOException e) {
        throw new UncheckedIOException("the picture of the report could not be written", e);
      }
    }
  }
}

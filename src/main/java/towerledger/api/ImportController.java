package towerledger.api;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Writer;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RequestPart;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.multipart.MultipartFile;
import towerledger.account.Actor;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.intake.ImportReceipt;
import towerledger.intake.ImportRequest;
import towerledger.intake.Importer;
import towerledger.intake.Upload;
import towerledger.intake.UploadFolder;
import towerledger.intake.UploadRefused;
import towerledger.page.Outage;

/**
 * Takes bundles and single files in. An upload is first laid down on disk, so that memory does not
 * grow with it and a half upload is never taken.
 */
@RestController
@OpenTo(
    value = {Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER},
    need = OpenTo.Need.ENTER)
class ImportController {

  private static final String PATH = "/api/v1/imports";

  private final Importer importer;

  ImportController(Importer importer) {
    this.importer = importer;
  }

  /** Files as a form sends them: ZIPs, CSVs or both, under their own names. */
  @PostMapping(path = PATH, consumes = MediaType.MULTIPART_FORM_DATA_VALUE)
  ImportReceipt takeParts(
      Viewer viewer, Actor actor, @RequestPart("file") List<MultipartFile> parts)
      throws IOException {
    return inTemporaryFolder(
        folder -> {
          try (Upload upload = Upload.empty()) {
            int number = 0;
            for (MultipartFile part : parts) {
              Path place = folder.resolve("part" + ++number);
              part.transferTo(place.toFile());
              upload.add(String.valueOf(part.getOriginalFilename()), place);
            }
            return importer.take(upload, new ImportRequest(actor, viewer, names(parts)));
          }
        });
  }

  /**
   * One file as the body: a ZIP, CSV text with {@code ?file=register_readings}, or a file of an
   * open format with its name, such as {@code ?file=ATL.epw}.
   */
  @PostMapping(
      path = PATH,
      consumes = {
        "text/csv",
        "text/plain",
        "text/xml",
        "application/xml",
        "application/atom+xml",
        "application/zip",
        "application/x-zip-compressed",
        MediaType.APPLICATION_OCTET_STREAM_VALUE
      })
  ImportReceipt takeBody(
      Viewer viewer,
      Actor actor,
      HttpServletRequest request,
      @RequestParam(name = "file", required = false) @Nullable String file)
      throws IOException {
    String name = file == null || file.isBlank() ? "upload.zip" : withEnding(file.strip());
    return inTemporaryFolder(
        folder -> {
          Path place = folder.resolve("body");
          layDown(request, charset(request, name), place);
          if (file == null && !isZip(place)) {
            throw new UploadRefused(
                UploadRefused.Kind.UNREADABLE,
                "say which file the text is, for instance ?file=register_readings");
          }
          try (Upload upload = Upload.empty()) {
            upload.add(name, place);
            return importer.take(upload, new ImportRequest(actor, viewer, name));
          }
        });
  }

  private static String withEnding(String file) {
    return file.contains(".") ? file : file + ".csv";
  }

  private static boolean isZip(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      byte[] head = in.readNBytes(2);
      return head.length < 2 || (head[0] == 'P' && head[1] == 'K');
    }
  }

  private static void layDown(HttpServletRequest request, Charset charset, Path place)
      throws IOException {
    long expected = request.getContentLengthLong();
    try {
      if (charset.equals(StandardCharsets.UTF_8)) {
        long copied = Files.copy(request.getInputStream(), place);
        if (expected >= 0 && copied != expected) {
          throw new IOException("%d of %d bytes arrived".formatted(copied, expected));
        }
      } else {
        transcode(request.getInputStream(), charset, place);
      }
    } catch (IOException e) {
      if (Outage.isFull(e)) {
        throw e;
      }
      throw new UploadRefused(
          UploadRefused.Kind.UNREADABLE,
          "the upload broke off (%s); nothing was taken, so send it again"
              .formatted(e.getMessage()));
    }
  }

  /** How the text is encoded; a feed says so itself, and would say wrong once it was turned. */
  private static Charset charset(HttpServletRequest request, String name) {
    if (!name.toLowerCase(Locale.ROOT).endsWith(".csv")) {
      return StandardCharsets.UTF_8;
    }
    String type = request.getContentType();
    Charset charset = type == null ? null : MediaType.parseMediaType(type).getCharset();
    return charset == null || charset.equals(StandardCharsets.US_ASCII)
        ? StandardCharsets.UTF_8
        : charset;
  }

  private static void transcode(InputStream in, Charset charset, Path place) throws IOException {
    var decoder =
        charset
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    try (var reader = new InputStreamReader(in, decoder);
        Writer writer = Files.newBufferedWriter(place, StandardCharsets.UTF_8)) {
      reader.transferTo(writer);
    }
  }

  private static String names(List<MultipartFile> parts) {
    return String.join(
        ", ", parts.stream().map(part -> String.valueOf(part.getOriginalFilename())).toList());
  }

  @FunctionalInterface
  private interface Work {
    ImportReceipt in(Path folder) throws IOException;
  }

  private static ImportReceipt inTemporaryFolder(Work work) throws IOException {
    try (UploadFolder folder = UploadFolder.open()) {
      return work.in(folder.path());
    }
  }

  @ExceptionHandler
  ProblemDetail refused(UploadRefused refusal) {
    return problem(refusal);
  }

  static ProblemDetail problem(UploadRefused refusal) {
    HttpStatus status =
        switch (refusal.kind()) {
          case UNREADABLE -> HttpStatus.BAD_REQUEST;
          case WRONG_CONTENT -> HttpStatus.UNPROCESSABLE_CONTENT;
          case TOO_LARGE -> HttpStatus.CONTENT_TOO_LARGE;
          case NOT_ALLOWED -> HttpStatus.FORBIDDEN;
        };
    return ProblemDetail.forStatusAndDetail(status, String.valueOf(refusal.getMessage()));
  }
}

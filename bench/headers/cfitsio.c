/*
 * The anchor of the header benchmark: reads sixteen keywords of every file named in a list with cfitsio,
 * as an ordinary C program would, and prints sums over the values so that two programs can be seen to read the same.
 *
 *   cc -O2 cfitsio.c -lcfitsio -o cfitsio && ./cfitsio LIST
 *
 * LIST holds one path a line. The first keyword is a date whose milliseconds count among the numbers.
 */
#include <fitsio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const STRINGS[] = {"DATE-OBS", "FILTER", "OBJECT", "IMAGETYP", "TELESCOP", "INSTRUME"};
static const char *const REALS[] = {"EXPTIME",  "RA",       "DEC",      "CCD-TEMP", "GAIN",
                                    "OFFSET",   "XBINNING", "YBINNING", "FOCUSPOS", "FOCALLEN"};

int main(int argc, char **argv) {
  if (argc != 2) {
    fprintf(stderr, "usage: %s LIST\n", argv[0]);
    return 2;
  }
  FILE *list = fopen(argv[1], "r");
  if (list == NULL) {
    perror(argv[1]);
    return 1;
  }

  char path[4096];
  long frames = 0, characters = 0;
  double sum = 0;
  while (fgets(path, sizeof path, list) != NULL) {
    path[strcspn(path, "\n")] = '\0';
    fitsfile *fits = NULL;
    int status = 0;
    fits_open_diskfile(&fits, path, READONLY, &status);
    for (size_t i = 0; i < sizeof STRINGS / sizeof *STRINGS; i++) {
      char value[FLEN_VALUE] = "";
      fits_read_key(fits, TSTRING, STRINGS[i], value, NULL, &status);
      if (i == 0) sum += strlen(value) > 20 ? atof(value + 20) : 0;
      else characters += (long)strlen(value);
    }
    for (size_t i = 0; i < sizeof REALS / sizeof *REALS; i++) {
      double value = 0;
      fits_read_key(fits, TDOUBLE, REALS[i], &value, NULL, &status);
      sum += value;
    }
    if (status != 0) {
      fits_report_error(stderr, status);
      return 1;
    }
    fits_close_file(fits, &status);
    frames++;
  }
  fclose(list);
  printf("%ld frames, %ld characters, sum %.3f\n", frames, characters, sum);
  return 0;
}

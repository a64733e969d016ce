package main

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"
)

// TestMain makes the test binary the program itself where a script or a test asks for "thawbook".
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"thawbook": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/script",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":   exits,
			"strict":  strict,
			"same":    same,
			"sheets":  listSheets,
			"mkbook":  mkbook,
			"mkhours": mkhours,
			"mklogo":  mklogo,
		},
		Condition: func(what string) (bool, error) {
			if what == "permissions" { // whether the system refuses what permission bits forbid
				return runtime.GOOS != "windows" && os.Getuid() != 0, nil
			}
			return false, errors.New("unknown condition " + what)
		},
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
	})
}

// exits runs a program and checks its exit status: exits 1 thawbook check book.xlsx
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS PROGRAM [ARGUMENT]...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		ended := (*exec.ExitError)(nil)
		if !errors.As(err, &ended) {
			ts.Fatalf("%v", err)
		}
		got = ended.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// same compares two files byte by byte and says no more than whether they differ.
func same(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: same FILE FILE")
	}
	if alike := ts.ReadFile(args[0]) == ts.ReadFile(args[1]); alike == neg {
		ts.Fatalf("%s and %s: alike %v", args[0], args[1], alike)
	}
}

// listSheets lists the sheets of a workbook on standard output, with the number of their rows: sheets BOOK.xlsx
func listSheets(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: sheets BOOK.xlsx")
	}
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	for _, name := range f.GetSheetList() {
		rows, err := f.GetRows(name)
		ts.Check(err)
		fmt.Fprintln(ts.Stdout(), name, len(rows))
	}
}

// strict turns a workbook into one of the strict kind of its format: strict BOOK.xlsx. Result sheets can't stand beside its own.
func strict(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: strict BOOK.xlsx")
	}
	data := ts.ReadFile(args[0])
	r, err := zip.NewReader(strings.NewReader(data), int64(len(data)))
	ts.Check(err)
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, part := range r.File {
		in, err := part.Open()
		ts.Check(err)
		content, err := io.ReadAll(in)
		ts.Check(err)
		if part.Name == "xl/workbook.xml" {
			content = bytes.ReplaceAll(content, []byte("http://schemas.openxmlformats.org/spreadsheetml/2006/main"), []byte("http://purl.oclc.org/ooxml/spreadsheetml/main"))
		}
		out, err := w.Create(part.Name)
		ts.Check(err)
		_, err = out.Write(content)
		ts.Check(err)
	}
	ts.Check(w.Close())
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b.Bytes(), 0o666))
}

// mkhours writes an hourly file of a made-up year: mkhours FILE.csv. It is coldest in January, and it snows for twelve hours every fifth day.
func mkhours(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: mkhours FILE.csv")
	}
	var b strings.Builder
	b.WriteString("Station,Made up\nLatitude,47\nLongitude,8\nElevation,500\nTime zone,1\n")
	b.WriteString("Time,Air temperature [°C],Dew point [°C],Wind speed [m/s],Water [mm],Cloud cover [%]\n")
	begin := time.Date(2021, 1, 1, 0, 0, 0, 0, time.UTC)
	for h := range 8760 {
		air := 7 - 12*math.Cos(2*math.Pi*float64(h)/8760)
		water := 0.0
		if h/24%5 == 0 && h%24 < 12 {
			water = 0.5 + 0.1*float64(h%7)
		}
		fmt.Fprintf(&b, "%s,%.1f,%.1f,3,%.1f,80\n", begin.Add(time.Duration(h)*time.Hour).Format("2006-01-02 15:04"), air, air-2, water)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o666))
}

// mklogo writes a picture of so many pixels in width: mklogo FILE.png 200
func mklogo(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: mklogo FILE.png WIDTH")
	}
	width, err := strconv.Atoi(args[1])
	ts.Check(err)
	var b bytes.Buffer
	ts.Check(png.Encode(&b, image.NewGray(image.Rect(0, 0, width, 50))))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b.Bytes(), 0o666))
}

// mkbook makes a workbook from tab-separated files, a sheet of each, named like the file: mkbook book.xlsx Sites.tsv Climate.tsv
// A cell that reads as a number is one; a cell that begins with an apostrophe is the text behind it.
func mkbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: mkbook BOOK.xlsx SHEET.tsv...")
	}
	ts.Check(writeBook(ts.MkAbs(args[0]), args[1:], func(name string) string { return ts.ReadFile(name) }))
}

// writeBook makes a workbook of sheets whose tab-separated text read returns.
func writeBook(book string, sheets []string, read func(name string) string) error {
	if err := os.MkdirAll(filepath.Dir(book), 0o777); err != nil {
		return err
	}
	f := excelize.NewFile()
	defer f.Close()
	for i, file := range sheets {
		name := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
		if i == 0 {
			f.SetSheetName("Sheet1", name)
		} else if _, err := f.NewSheet(name); err != nil {
			return err
		}
		if err := fillSheet(f, name, read(file)); err != nil {
			return err
		}
	}
	return f.SaveAs(book)
}

func fillSheet(f *excelize.File, sheet, text string) error {
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = '\t', true, -1
	rows, err := r.ReadAll()
	if err != nil {
		return err
	}
	for y, row := range rows {
		for x, typed := range row {
			cell, err := excelize.CoordinatesToCellName(x+1, y+1)
			if err != nil {
				return err
			}
			if err := setCell(f, sheet, cell, typed); err != nil {
				return err
			}
		}
	}
	return nil
}

func setCell(f *excelize.File, sheet, cell, typed string) error {
	if typed == "" {
		return nil
	}
	if n, err := strconv.ParseFloat(typed, 64); err == nil {
		return f.SetCellValue(sheet, cell, n)
	}
	if formula, is := strings.CutPrefix(typed, "="); is {
		return f.SetCellFormula(sheet, cell, formula)
	}
	return f.SetCellValue(sheet, cell, strings.TrimPrefix(typed, "'"))
}

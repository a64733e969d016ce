package main

import (
	"encoding/csv"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

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
			"exits":  exits,
			"mkbook": mkbook,
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

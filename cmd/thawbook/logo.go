package main

import (
	"os"
	"path/filepath"

	"thawbook/calc/finding"
	"thawbook/calc/weather"
	"thawbook/cmd/thawbook/outdir"
	"thawbook/ingest"
	"thawbook/report"
)

// CodeLogoNotRead tells of a Logo file that is missing or no picture. The documents are made without it.
const CodeLogoNotRead finding.Code = "logo-not-read"

// readLogo reads the picture that Settings names.
func (r *reading) readLogo(workbook string) {
	named := r.book.Settings.LogoFile
	if named == "" {
		return
	}
	path := ingest.Beside(workbook, named)
	data, err := os.ReadFile(path)
	if err == nil {
		r.logo, err = report.ReadLogo(data)
	}
	if err != nil {
		f := finding.New(finding.Warning, CodeLogoNotRead, "logo_file", finding.Words("file", named))
		f.At = r.book.LocateSetting("logo_file")
		r.book.Findings = append(r.book.Findings, f)
		return
	}
	r.book.Files = append(r.book.Files, weather.Source{File: filepath.Base(path), SHA256: outdir.Digest(data)})
}

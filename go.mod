module thawbook

go 1.26

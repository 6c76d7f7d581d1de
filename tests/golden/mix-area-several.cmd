coatwright mix post-catalysed-varnish 300 m2 --by hvlp --thin 10%

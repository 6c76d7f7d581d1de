coatwright mix post-catalysed-varnish 400 ml --at '95 C'

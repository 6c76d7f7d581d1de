coatwright mix wiping-varnish 15 sq ft --by brush --later --units us

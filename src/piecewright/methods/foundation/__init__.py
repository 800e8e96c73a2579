"""Foundation piecing: order, sections, scraps, and the steps that sew them."""

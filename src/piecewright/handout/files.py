"""All the files of a job: the job sheet and true-scale sheets as PDF, and every picture as SVG."""

from __future__ import annotations

import re
from collections.abc import Mapping

from piecewright.design.draw_block import draw_block
from piecewright.drawing.palette import palette_of
from piecewright.drawing.plan_sheets import plan_foundations, plan_templates
from piecewright.drawing.quilt import block_svg
from piecewright.drawing.recipe_sheets import filled
from piecewright.drawing.sheet_page import PAPERS
from piecewright.handout.from_job import job_sheet
from piecewright.handout.printing import job_sheet_pdf
from piecewright.handout.sheet import JobSheet, Paper
from piecewright.handout.true_scale_sheet import true_scale_pdf
from piecewright.planning.job import Job


def job_files(job: Job, paper: Paper = "letter", sums: bool = True) -> Mapping[str, bytes]:
    """The content of each file by its name in the job's folder: `job-sheet.pdf`, `pictures/quilt.svg` ..."""
    sheet = job_sheet(job, paper)
    pictures = {**_sheet_pictures(sheet, job), **_block_pictures(job)}
    files = {f"pictures/{name}.svg": svg.encode() for name, svg in pictures.items()}
    return {"job-sheet.pdf": job_sheet_pdf(sheet, sums=sums), **_true_scale(job, paper), **files}


def _true_scale(job: Job, paper: Paper) -> dict[str, bytes]:
    """Templates and foundations to print, where the plan has any."""
    found = {"templates.pdf": plan_templates(job), "foundations.pdf": plan_foundations(job)}
    return {
        name: true_scale_pdf((filled(sheet, PAPERS[paper]),), paper) for name, sheet in found.items() if sheet
    }


def _block_pictures(job: Job) -> dict[str, str]:
    palette = palette_of(job.design)
    return {
        f"block-{slug(key)}": block_svg(draw_block(job.design, key), palette, job.design.unit, labelled=True)
        for key in job.blocks
    }


def _sheet_pictures(sheet: JobSheet, job: Job) -> dict[str, str]:
    found = {"quilt": sheet.picture.svg}
    for number, unit in enumerate(sheet.units, 1):
        for picture in unit.pictures:
            found[f"unit-{number}-{slug(unit.name.split(',')[0])}"] = picture.svg
    for told, cloth in zip(sheet.cutting, job.cloth, strict=True):
        for number, layout in enumerate(told.layouts, 1):
            page = f"-{number}" if len(told.layouts) > 1 else ""
            found[f"cutting-{slug(cloth.name)}{page}"] = layout.svg
    found |= _pressing_pictures(sheet)
    for part in (*sheet.together, *sheet.joining):
        if part.picture:
            found[f"joining-{slug(part.name)}"] = part.picture.svg
        for number, stage in enumerate(part.stages[:-1], 1):
            if stage.picture:
                found[f"joining-{slug(part.name)}-{number}"] = stage.picture.svg
    return found


def _pressing_pictures(sheet: JobSheet) -> dict[str, str]:
    found = {}
    for told in sheet.pressing:
        for pressing in (told, told.second):
            if pressing and pressing.picture:
                found[f"pressing-{slug(pressing.name)}"] = pressing.picture.svg
            if pressing and pressing.back:
                found[f"pressing-{slug(pressing.name)}-back"] = pressing.back.svg
            if pressing and pressing.layers:
                found[f"layers-{slug(pressing.name)}"] = pressing.layers.svg
    return found


def slug(words: str) -> str:
    """Words as part of a file name: small letters, digits and hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-") or "picture"

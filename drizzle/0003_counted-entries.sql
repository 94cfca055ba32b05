ALTER TABLE `answer` ADD `device_id` text;--> statement-breakpoint
ALTER TABLE `answer` ADD `entry_number` integer;--> statement-breakpoint
CREATE INDEX `answer_counted` ON `answer` (`device_id`,`entry_number`) WHERE "answer"."entry_number" is not null;